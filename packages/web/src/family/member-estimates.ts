import type { EstimatesReport, Family, FamilyMember, GenetEstimate } from '@keelrow/server/contract';
import { numberLine } from '../compare/scale.ts';
import type { TraitWriting } from '../compare/trait-shown.ts';

/** The estimate of a member as its box shows it; places on the common line run from 0 to 1. */
export interface MemberEstimate {
  readonly value: string;
  readonly range: string;
  /** What these figures are. */
  readonly words: string;
  readonly at: { readonly value: number; readonly low: number; readonly high: number };
  /** It is the mean of many sibs, and the range runs from the least to the most of their estimates. */
  readonly ofSibs: boolean;
}

interface Told {
  readonly id: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly se: number;
  /** Said of sibs beside the figures: `mean of 9 of 12 sibs`. */
  readonly sibs: string | null;
}

/** Estimates of a family's members by their ids, all on one line, so that parents and progeny can be held side by side. */
export function memberEstimates(
  { members }: Family,
  report: EstimatesReport,
  writing: TraitWriting,
): ReadonlyMap<string, MemberEstimate> {
  const estimates = new Map(report.estimates.map((estimate) => [estimate.id, estimate]));
  const found = members.flatMap((member) => toldOf(member, estimates) ?? []);
  const { toShown } = writing;
  const line = numberLine(
    found.flatMap(({ low, high }) => [toShown(low), toShown(high)]),
    4,
  );
  const what = `${report.trait.name}${writing.isDay || !writing.unit ? '' : ` in ${writing.unit}`}`;
  return new Map(
    found.map(({ id, value, low, high, se, sibs }) => {
      const [shown, range] = [writing.value(value, se), writing.range(low, high, se)];
      // Sibs that nobody noted all have what their parents let expect.
      const alike = sibs !== null && writing.value(low, se) === writing.value(high, se);
      return [
        id,
        {
          value: shown,
          range: alike ? '(all alike)' : `(${range.replace(' to ', '–')})`,
          words:
            sibs === null ? what : `${what}, ${sibs}${alike ? '' : ' and how far their estimates reach'}`,
          at: { value: line.at(toShown(value)), low: line.at(toShown(low)), high: line.at(toShown(high)) },
          ofSibs: sibs !== null,
        },
      ];
    }),
  );
}

/** Of one genet its own estimate; of a box that stands for many sibs the mean of theirs, as far as they have one. */
function toldOf(
  { id, standsFor = [id] }: FamilyMember,
  estimates: ReadonlyMap<string, GenetEstimate>,
): Told | null {
  const own = standsFor.flatMap((sib) => estimates.get(sib) ?? []);
  const [first] = own;
  if (!first) return null;
  if (standsFor.length === 1) {
    const { estimate, low, high, se } = first;
    return { id, value: estimate, low, high, se, sibs: null };
  }
  const values = own.map(({ estimate }) => estimate);
  const meanOf = (numbers: readonly number[]): number =>
    numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
  return {
    id,
    value: meanOf(values),
    low: Math.min(...values),
    high: Math.max(...values),
    // As precise as the estimates themselves: the mean's own error would promise more.
    se: meanOf(own.map(({ se }) => se)),
    sibs: `mean of ${own.length === standsFor.length ? own.length : `${own.length} of ${standsFor.length}`} sibs`,
  };
}
