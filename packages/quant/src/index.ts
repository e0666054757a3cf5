export { type BoxControl, type BoxProbability, boxProbability } from './distributions/box-probability.ts';
export { erfc } from './distributions/erfc.ts';
export { normalCdf, normalDensity, normalQuantile } from './distributions/normal.ts';
export { fitModel, fitTable } from './mixed/fit-table.ts';
export type { CombinationEstimate, FittedModel } from './mixed/fitted-model.ts';
export type { FittedRows } from './mixed/fitted-rows.ts';
export { sortLevels } from './mixed/levels.ts';
export type {
  AdditiveTerm,
  FitControl,
  FitProgress,
  FitResult,
  FittedEffect,
  FittedFixed,
  FittedVariance,
  Model,
  Table,
} from './mixed/model.ts';
export { FitCancelledError, ModelError, type ModelErrorPlace } from './mixed/model-error.ts';
export type { WeightedEffect } from './mixed/shares.ts';
export {
  ratioOfVariances,
  type VarianceCovariance,
  type VarianceRatio,
  type VarianceSlopes,
} from './mixed/variance-covariance.ts';
export { type Random, seededRandom } from './random/seeded-random.ts';
export { type BentMatrix, bend } from './several/bend.ts';
export type { Covariances } from './several/covariances.ts';
export { fitTwoTraits, type TwoTraitControl } from './several/fit-two-traits.ts';
export type { LevelSums } from './several/level-sums.ts';
export { solveSeveral } from './several/solve-several.ts';
export type { TraitEstimates } from './several/solved-parts.ts';
export type { SolvedSeveral } from './several/solved-several.ts';
export type { SeveralControl, TraitTable } from './several/trait-table.ts';
export {
  correlationOfSum,
  type TwoTraitErrors,
  type TwoTraitEstimate,
  type TwoTraitFit,
  type TwoTraitTerm,
} from './several/two-trait-fit.ts';
export { type CholeskyFactor, factorise, NotPositiveDefiniteError } from './sparse/cholesky.ts';
export { selectedInverse } from './sparse/selected-inverse.ts';
export { solve, solveTransposed } from './sparse/solve.ts';
export { analyse, type SymbolicFactor } from './sparse/symbolic.ts';
export {
  quadraticForm,
  type SparseSymmetric,
  sparseIdentity,
  symmetricFromEntries,
} from './sparse/symmetric.ts';
