import { seededRandom, type Table, type TraitTable } from '../../src/index.ts';
import { additiveOf } from '../mixed/additive-of.ts';

/** Relationships of eight animals: example 4.1 of Mrode 2014 (see known-covariance.test.ts). */
export const KINSHIP = [
  [1, 0, 0, 0.5, 0, 0.5, 0.25, 0.625],
  [0, 1, 0, 0.5, 0.5, 0.25, 0.25, 0.125],
  [0, 0, 1, 0, 0.5, 0.25, 0.5, 0.25],
  [0.5, 0.5, 0, 1, 0.25, 0.375, 0.5, 0.5],
  [0, 0.5, 0.5, 0.25, 1, 0.5, 0.375, 0.1875],
  [0.5, 0.25, 0.25, 0.375, 0.5, 1, 0.3125, 0.40625],
  [0.25, 0.25, 0.5, 0.5, 0.375, 0.3125, 1, 0.625],
  [0.625, 0.125, 0.25, 0.5, 0.1875, 0.40625, 0.625, 1.125],
];

interface Row {
  readonly animal: number;
  readonly plot: number;
  readonly season: number;
  readonly x: number;
  readonly weight: number;
  readonly y: readonly (number | null)[];
}

/** Unbalanced rows of three traits in different units: kin, plots, seasons, a covariate, weights; many cells missing. */
export function simulatedRows(seed: number, count: number): Row[] {
  const random = seededRandom(seed);
  const scale = [1, 30, 0.02];
  const animal = Array.from({ length: 8 }, () => random.normal());
  const plots = Array.from({ length: 9 }, () => random.normal());
  return Array.from({ length: count }, (_, k) => {
    const a = random.integer(8);
    const plot = random.integer(9);
    const x = random.integer(20);
    const weight = 1 + random.integer(3);
    const shared = random.normal();
    const y = scale.map((s, t) =>
      random.uniform() < 0.2 + 0.1 * t
        ? null
        : s *
          (5 +
            animal[a]! +
            (t === 1 ? -1 : 1) * plots[plot]! +
            0.1 * x +
            (shared + random.normal()) / Math.sqrt(weight)),
    );
    return { animal: a, plot, season: k % 3, x, weight, y };
  });
}

/** The tables of the traits: the second has a covariate, the third no plots. */
export function tablesOf(rows: readonly Row[]): TraitTable[] {
  const additive = additiveOf('animal', KINSHIP);
  return [0, 1, 2].map((t) => {
    // Trait tables hold rows in different orders, so that nothing rests on the order.
    const own = t === 1 ? [...rows.keys()].reverse() : [...rows.keys()];
    const column = (of: (row: Row) => string) => own.map((k) => of(rows[k]!));
    const table: Table = {
      columns: new Map([
        ['animal', column((row) => String(row.animal + 1))],
        ['plot', column((row) => `p${row.plot}`)],
        ['season', column((row) => `s${row.season}`)],
        ['x', column((row) => String(row.x))],
        ['w', column((row) => String(row.weight))],
        ['y', column((row) => (row.y[t] === null ? '' : String(row.y[t])))],
        ['visit', own.map((k) => String(k))],
      ]),
    };
    return {
      name: ['height', 'width', 'spread'][t]!,
      table,
      model: {
        response: 'y',
        fixed: t === 1 ? ['season', 'x'] : ['season'],
        numeric: ['x'],
        random: t === 2 ? [] : ['plot'],
        weights: 'w',
        additive,
      },
      occasion: 'visit',
    };
  });
}

export interface DenseTraits {
  readonly y: number[];
  readonly x: number[][];
  readonly trait: number[];
  readonly row: Row[];
  /** Covariance matrix of all responses for matrices of additive, plot and residual (traits × traits). */
  v(additive: Matrix, plot: Matrix, residual: Matrix): number[][];
}
type Matrix = readonly (readonly number[])[];

/** The same in dense matrices, written down from the rows without the engine. */
export function denseTraits(rows: readonly Row[], traits: readonly number[]): DenseTraits {
  const entries = traits.flatMap((t, own) =>
    rows.flatMap((row, k) => (row.y[t] === null ? [] : [{ t, own, k, row }])),
  );
  const fixed = ({ t, row }: (typeof entries)[number]) =>
    t === 1
      ? [1, row.season === 1 ? 1 : 0, row.season === 2 ? 1 : 0, row.x]
      : [1, row.season === 1 ? 1 : 0, row.season === 2 ? 1 : 0];
  const widths = traits.map((t) => (t === 1 ? 4 : 3));
  const start = widths.map((_, i) => widths.slice(0, i).reduce((sum, width) => sum + width, 0));
  const total = widths.reduce((sum, width) => sum + width, 0);
  return {
    y: entries.map(({ t, row }) => row.y[t]!),
    x: entries.map((entry) => {
      const line = new Array<number>(total).fill(0);
      fixed(entry).forEach((value, j) => {
        line[start[entry.own]! + j] = value;
      });
      return line;
    }),
    trait: entries.map(({ own }) => own),
    row: entries.map(({ row }) => row),
    v: (additive, plot, residual) =>
      entries.map((a) =>
        entries.map(
          (b) =>
            additive[a.own]![b.own]! * KINSHIP[a.row.animal]![b.row.animal]! +
            (a.row.plot === b.row.plot ? plot[a.own]![b.own]! : 0) +
            (a.k === b.k ? residual[a.own]![b.own]! / a.row.weight : 0),
        ),
      ),
  };
}
