export { bestOf } from './answers/best-of.ts';
export { comparePair } from './answers/compare.ts';
export { informationParts } from './answers/information.ts';
export type { EvaluateControl } from './choosing/build-model.ts';
export { type ChosenModel, chooseModel } from './choosing/choose-model.ts';
export type { TraitKind } from './choosing/choose-scale.ts';
export { evaluate } from './estimate.ts';
export type { Evaluation, NoEvaluation } from './evaluation.ts';
export { type GenetValue, genetValues, type Predicted } from './genet-values.ts';
export { halfOf80 } from './half-of-80.ts';
export { type JointLine, jointValues } from './joint/joint.ts';
export type { JointControl, JointValue, JointValues } from './joint/joint-values.ts';
export { reportEstimates } from './report/report-estimates.ts';
export type { Shown } from './report/shown-beside.ts';
export { traitModel } from './report/trait-model.ts';
export type * from './report.ts';
export { type Scale, shown } from './scale.ts';
export {
  type PlantWinter,
  type WinterChance,
  type WinterSurvival,
  winterSurvival,
} from './survival/winter-survival.ts';
export type { TraitNote } from './trait-note.ts';
