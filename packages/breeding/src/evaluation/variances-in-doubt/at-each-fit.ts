import { depressionIn } from '../depression.ts';
import type { Evaluation } from '../evaluation.ts';

/** Something told at variances that may be the true ones, with the chance of these variances. */
export interface Chanced<T> {
  readonly chance: number;
  readonly told: T;
}

/** What is told at each of the variances that may be the true ones. */
export const atEachFit = <T>(evaluation: Evaluation, tell: (at: Evaluation) => T): Chanced<T>[] =>
  evaluation.fits.map(({ chance, fitted }) => ({
    chance,
    told: tell(
      fitted === evaluation.fitted
        ? evaluation
        : { ...evaluation, fitted, depression: depressionIn(fitted, evaluation.kin) },
    ),
  }));

/**
 * The error variance of an estimate that was made at the best variances: over those that may be true, the mean of the error
 * variance there and of the square of how far the estimate would lie elsewhere.
 */
export const errorInDoubt = (
  estimate: number,
  at: readonly Chanced<{ readonly effect: number; readonly se: number }>[],
): number =>
  Math.sqrt(
    at.reduce((sum, { chance, told }) => sum + chance * (told.se ** 2 + (told.effect - estimate) ** 2), 0),
  );
