import type { EstimatesReport, GenetEstimate } from '@keelrow/server/contract';
import type { TraitWriting } from './trait-shown.ts';

/** What of a genet is ranked: what it is itself, or what it hands on to its seedlings. */
export type Worth = 'itself' | 'parent';

/** A genet in the ranking; numbers in the units shown, on the line of the drawing. */
export interface Ranked {
  readonly estimate: GenetEstimate;
  readonly rank: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly mean: number | null;
  readonly se: number;
  readonly reliability: number | null;
}

/**
 * The ranking, best first. As a parent a genet counts by its additive value, told as the distance from the average;
 * one without such a value is left out. Genets without notes come in where `unnoted` says so.
 */
export function rankedBy(
  report: EstimatesReport,
  writing: Pick<TraitWriting, 'toShown' | 'span'>,
  worth: Worth,
  unnoted: boolean,
): Ranked[] {
  const chosen = report.estimates.filter(
    ({ notes, breeding }) => (unnoted || notes > 0) && (worth === 'itself' || breeding !== null),
  );
  const down = report.trait.wanted === 'less' ? -1 : 1;
  const ordered =
    worth === 'itself'
      ? chosen
      : [...chosen].sort((a, b) => down * ((b.breeding?.effect ?? 0) - (a.breeding?.effect ?? 0)));
  return ordered.map((estimate, index) => {
    const { breeding } = estimate;
    const place =
      worth === 'parent' && breeding
        ? {
            value: writing.span(breeding.effect),
            low: writing.span(breeding.low),
            high: writing.span(breeding.high),
            mean: null,
            se: breeding.se,
            reliability: breeding.reliability,
          }
        : {
            value: writing.toShown(estimate.estimate),
            low: writing.toShown(estimate.low),
            high: writing.toShown(estimate.high),
            mean: estimate.mean === null ? null : writing.toShown(estimate.mean),
            se: estimate.se,
            reliability: estimate.reliability,
          };
    return { estimate, rank: index + 1, ...place };
  });
}
