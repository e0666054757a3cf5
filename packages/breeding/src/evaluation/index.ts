export { type ChosenModel, chooseModel } from './choose-model.ts';
export { comparePair } from './compare.ts';
export { type Evaluation, evaluate } from './estimate.ts';
export type * from './report.ts';
export { reportEstimates, type Shown } from './report-estimates.ts';
export type { TraitNote } from './trait-note.ts';
