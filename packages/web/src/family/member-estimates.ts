import type { EstimatesReport, Family } from '@keelrow/server/contract';
import { numberLine } from '../compare/scale.ts';
import type { TraitWriting } from '../compare/trait-shown.ts';

/** The estimate of a member as its box shows it; places on the common line run from 0 to 1. */
export interface MemberEstimate {
  readonly value: string;
  readonly range: string;
  readonly words: string;
  readonly at: { readonly value: number; readonly low: number; readonly high: number };
}

/** Estimates of a family's members by their ids, all on one line, so that parents and progeny can be held side by side. */
export function memberEstimates(
  { members }: Family,
  report: EstimatesReport,
  writing: TraitWriting,
): ReadonlyMap<string, MemberEstimate> {
  // A box that stands for many sibs has no estimate of its own.
  const drawn = new Set(members.filter(({ standsFor = 1 }) => standsFor === 1).map(({ id }) => id));
  const found = report.estimates.filter(({ id }) => drawn.has(id));
  const { toShown } = writing;
  const line = numberLine(
    found.flatMap(({ low, high }) => [toShown(low), toShown(high)]),
    4,
  );
  const unit = writing.isDay || !writing.unit ? '' : ` ${writing.unit}`;
  return new Map(
    found.map(({ id, estimate, low, high, se }) => {
      const [value, range] = [writing.value(estimate, se), writing.range(low, high, se)];
      return [
        id,
        {
          value,
          range: `(${range.replace(' to ', '–')})`,
          words: `${report.trait.name} about ${value}${unit}, ${range}`,
          at: { value: line.at(toShown(estimate)), low: line.at(toShown(low)), high: line.at(toShown(high)) },
        },
      ];
    }),
  );
}
