export { bestOf } from './best-of.ts';
export type { EvaluateControl } from './build-model.ts';
export { type ChosenModel, chooseModel } from './choose-model.ts';
export type { TraitKind } from './choose-scale.ts';
export { comparePair } from './compare.ts';
export { evaluate } from './estimate.ts';
export type { Evaluation, NoEvaluation } from './evaluation.ts';
export { type GenetValue, genetValues, type Predicted } from './genet-values.ts';
export { halfOf80 } from './half-of-80.ts';
export { informationParts } from './information.ts';
export { type JointLine, jointValues } from './joint.ts';
export type { JointControl, JointValue, JointValues } from './joint-values.ts';
export type * from './report.ts';
export { reportEstimates } from './report-estimates.ts';
export { type Scale, shown } from './scale.ts';
export type { Shown } from './shown-beside.ts';
export {
  type PlantWinter,
  type WinterChance,
  type WinterSurvival,
  winterSurvival,
} from './survival/winter-survival.ts';
export { traitModel } from './trait-model.ts';
export type { TraitNote } from './trait-note.ts';
