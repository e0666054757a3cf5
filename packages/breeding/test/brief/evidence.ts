import type { BriefEvidence, BriefLimit, BriefTrait } from '@keelrow/breeding/brief';
import type { JointValue, Scale } from '@keelrow/breeding/evaluation';

export const traits: readonly BriefTrait[] = [
  { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', notes: 30 },
  { code: 'spikes', name: 'Spikes', sort: 'counted', least: 0, notes: 30 },
  { code: 'lodging', name: 'Falling over', sort: 'scored', least: 1, most: 9, notes: 30 },
  { code: 'banner', name: 'Banner', sort: 'coloured', notes: 30 },
  { code: 'habit', name: 'Habit', sort: 'classed', classes: ['bare', 'half', 'leafy'], notes: 30 },
  { code: 'first-flower', name: 'First flower', sort: 'staged', bbch: 60, notes: 30 },
  { code: 'end-of-flower', name: 'End of flower', sort: 'staged', bbch: 69, notes: 30 },
  { code: 'ripe-pods', name: 'Ripe pods', sort: 'staged', bbch: 89, notes: 30 },
  { code: 'memo', name: 'Memo', sort: 'spoken', notes: 3 },
];

export const limit = (trait: string, says: Partial<BriefLimit>): BriefLimit => ({
  trait,
  must: true,
  weight: null,
  atLeast: null,
  atMost: null,
  classes: null,
  colour: null,
  colourWithin: null,
  fromWeek: null,
  toWeek: null,
  ...says,
});

export const brief = (...limits: BriefLimit[]) => ({ id: 'b1', code: 'tall', name: 'Tall one', limits });

const asNoted = {
  name: 'as noted' as const,
  words: '',
  to: (value: number) => value,
  from: (value: number) => value,
  limits: [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const,
};

/** Evidence by hand: for each genet the mean on each line and the covariance, row by row. */
export function evidence(
  keys: readonly string[],
  values: Readonly<
    Record<string, { mean: readonly number[]; covariance: readonly number[]; notes?: number }>
  >,
  more: Partial<Omit<BriefEvidence, 'joint'>> & { scales?: readonly Scale[] } = {},
): BriefEvidence {
  return {
    traits,
    genets: Object.keys(values).map((id) => ({ id, code: id, name: null, standard: false })),
    joint: {
      keys,
      scales: more.scales ?? keys.map(() => asNoted),
      words: [],
      of: (genet): JointValue => {
        const mean = Float64Array.from(values[genet]!.mean);
        const covariance = Float64Array.from(values[genet]!.covariance);
        return { mean, covariance, each: [{ mean, covariance }] };
      },
    },
    unknown: new Map(),
    reach: new Map(),
    notes: new Map(
      [...new Set(keys.map((key) => key.split(' ')[0]!))].map((trait) => [
        trait,
        new Map(Object.entries(values).flatMap(([id, { notes }]) => (notes === 0 ? [] : [[id, notes ?? 4]]))),
      ]),
    ),
    classes: new Map(),
    ...more,
  };
}

/** Diagonal covariance from standard errors. */
export const independent = (...errors: readonly number[]): number[] =>
  errors.flatMap((error, i) => errors.map((_, j) => (i === j ? error ** 2 : 0)));
