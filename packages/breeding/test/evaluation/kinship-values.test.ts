import {
  bestOf,
  comparePair,
  type Evaluation,
  evaluate,
  genetValues,
  informationParts,
  reportEstimates,
  type TraitNote,
} from '@keelrow/breeding/evaluation';
import { kinshipOf, type PedigreeEntry } from '@keelrow/breeding/pedigree';
import { fitModel } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { denseInverse } from '../../../quant/test/sparse/dense-reference.ts';
import { errorWithMore } from '../../src/evaluation/answers/error-with-more.ts';
import { additiveValues, child, founder, ringOfCrosses } from './families.ts';
import { crossed, notesOf } from './layouts.ts';

const entries: PedigreeEntry[] = [
  ...ringOfCrosses(5, 5),
  // A clone of a seedling, and a seedling without notes.
  { ...founder('C1'), cloneOf: 'S1-1' },
  child('N1', 'S2-1', 'S3-1'),
];
const truth = additiveValues(entries, 9);
const noted = entries.map(({ genet }) => genet).filter((genet) => genet !== 'N1');
const notes = notesOf(
  crossed(noted, [2030, 2031, 2032]).map(([genet, year]) => ({ genet, year })),
  11,
).map((note) => ({ ...note, value: note.value + truth.get(note.genet)! }));

function evaluated(of: readonly TraitNote[], pedigree: readonly PedigreeEntry[]): Evaluation {
  const evaluation = evaluate(of, pedigree);
  if (evaluation.fitted === null) throw new Error(evaluation.chosen.impossible ?? '');
  return evaluation;
}
const evaluation = evaluated(notes, entries);
const variances = new Map(evaluation.fitted.result.variances.map(({ term, estimate }) => [term, estimate]));
/** The same at the variances alone, without the doubt about them. */
const atBest: Evaluation = { ...evaluation, fits: [{ chance: 1, fitted: evaluation.fitted }] };

const times = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] =>
  a.map((row) => b[0]!.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0)));
const transposed = (a: readonly (readonly number[])[]): number[][] =>
  a[0]!.map((_, j) => a.map((row) => row[j]!));

/**
 * Predictions and covariance of their errors by dense matrices: with u all values of the listed genets, var(u) = G and
 * cov(u, y) = D, û = D P y and var(û − u) = G − D P D', P = V⁻¹ − V⁻¹X(X'V⁻¹X)⁻¹X'V⁻¹
 * (source: Henderson C.R. 1975, Biometrics 31:423-447; Searle, Casella & McCulloch 1992, chapter 7).
 */
function byDefinition(beyond: boolean) {
  const genets = entries.map(({ genet }) => genet);
  const kinship = kinshipOf(entries);
  const [a, g, e] = ['additive', 'genet', 'residual'].map((term) => variances.get(term) ?? 0);
  const own = (x: string, y: string, withGenet: boolean) =>
    a! * kinship.relationship(x, y) + (withGenet && x === y ? g! : 0);
  const v = notes.map((one, i) =>
    notes.map((two, j) => own(one.genet, two.genet, true) + (i === j ? e! : 0)),
  );
  const x = notes.map(({ year }) => [1, year === 2031 ? 1 : 0, year === 2032 ? 1 : 0]);
  const vi = denseInverse(v).inverse;
  const vx = times(vi, x);
  const away = times(times(vx, denseInverse(times(transposed(x), vx)).inverse), transposed(vx));
  const p = vi.map((row, i) => row.map((value, j) => value - away[i]![j]!));
  const d = genets.map((genet) => notes.map((note) => own(genet, note.genet, beyond)));
  const dp = times(d, p);
  const told = times(dp, transposed(d));
  return {
    at: (genet: string) => genets.indexOf(genet),
    spread: genets.map((one) => genets.map((two) => own(one, two, beyond))),
    effects: times(
      dp,
      notes.map(({ value }) => [value]),
    ).map(([effect]) => effect!),
    errors: genets.map((one, i) => genets.map((two, j) => own(one, two, beyond) - told[i]![j]!)),
  };
}

describe('values with kinship', () => {
  it('are estimated with what is handed on and what a genet is beyond it', () => {
    expect(evaluation.model.additive).toBeDefined();
    expect(evaluation.model.random).toEqual(['genet']);
    expect(variances.get('additive')).toBeGreaterThan(0);
    expect(variances.get('genet')).toBeGreaterThan(0);
  });

  for (const part of ['total', 'additive'] as const) {
    it(`are those of the definition, less the average noted genet: ${part}`, () => {
      const { at, effects, errors, spread } = byDefinition(part === 'total');
      const meanOver = (of: (genet: string) => number) =>
        noted.reduce((sum, genet) => sum + of(genet), 0) / noted.length;
      const lessMean = (matrix: readonly (readonly number[])[], genet: string) => {
        const [i, mean] = [at(genet), meanOver((x) => matrix[at(genet)]![at(x)]!)];
        return matrix[i]![i]! - 2 * mean + meanOver((x) => meanOver((y) => matrix[at(x)]![at(y)]!));
      };
      const mean = meanOver((genet) => effects[at(genet)]!);
      const values = genetValues(atBest);
      expect(values.map(({ genet }) => genet)).toEqual(entries.map(({ genet }) => genet));
      for (const { genet, [part]: value } of values) {
        expect(value!.effect).toBeCloseTo(effects[at(genet)]! - mean, 7);
        expect(value!.se ** 2).toBeCloseTo(lessMean(errors, genet), 7);
        expect(value!.spread).toBeCloseTo(lessMean(spread, genet), 7);
      }
    });
  }

  it('of a pair differ as by the definition, one without notes too', () => {
    const { at, effects, errors } = byDefinition(true);
    for (const [a, b] of [
      ['S1-1', 'S1-2'],
      ['S1-1', 'C1'],
      ['P4', 'N1'],
    ] as const) {
      const pair = comparePair(atBest, a, b, null);
      const [i, j] = [at(a), at(b)];
      expect(pair.difference).toBeCloseTo(effects[i]! - effects[j]!, 7);
      expect(pair.se).toBeCloseTo(Math.sqrt(errors[i]![i]! + errors[j]![j]! - 2 * errors[i]![j]!), 7);
    }
  });

  it('share the additive value between a clone and its source, and nothing else', () => {
    const values = new Map(genetValues(evaluation).map((value) => [value.genet, value]));
    const [source, clone] = [values.get('S1-1')!, values.get('C1')!];
    expect(clone.additive!.effect).toBeCloseTo(source.additive!.effect, 9);
    expect(Math.abs(clone.total.effect - source.total.effect)).toBeGreaterThan(0.01);
  });
});

describe('what more notes would tell, with kinship, plants and beds', () => {
  const rows = crossed(crossed(noted, [1, 2]), [2030, 2031, 2032])
    .filter((_, index) => index % 7 !== 3)
    .map(([[genet, k], year], index) => ({
      genet,
      year,
      plant: `${genet}/${k}`,
      bed: `b${(index * 5) % 6}`,
    }));
  const inBeds = notesOf(rows, 5).map((note) => ({ ...note, value: note.value + truth.get(note.genet)! }));
  const garden = evaluated(inBeds, entries);
  const held = Object.fromEntries(
    garden.fitted.result.variances.map(({ term, estimate }) => [term, estimate]),
  );

  /** The same written out: notes added, with new classes where they are new, and the equations solved again. */
  const solvedAgain = (
    a: string,
    b: string,
    added: readonly (readonly [number, string, string, string])[],
  ) => {
    const columns = new Map(
      [...garden.table.columns].map(([name, cells]) => [
        name,
        [
          ...cells,
          ...added.map(([row, genet, plant, season]) => {
            const own: Record<string, string> = { genet, additive: genet, plant, season, value: '50' };
            return own[name] ?? cells[row]!;
          }),
        ],
      ]),
    );
    const again = fitModel({ columns }, { ...garden.model, held });
    return again.combine(
      [a, b].flatMap((genet, k) =>
        ['additive', 'genet'].map((term) => ({ term, level: genet, weight: k === 0 ? 1 : -1 })),
      ),
    ).se;
  };
  const lastRows = (genet: string) => {
    const own = [...inBeds.keys()].filter((row) => inBeds[row]!.genet === genet);
    const last = Math.max(...own.map((row) => inBeds[row]!.year));
    return own.filter((row) => inBeds[row]!.year === last);
  };

  it('is what the equations give when solved again', () => {
    expect(garden.model.random).toEqual(expect.arrayContaining(['genet', 'bed', 'plant']));
    const tell = errorWithMore(garden, 'S1-1', 'S4-2');
    const both = ['S1-1', 'S4-2'];
    const years = both.flatMap((genet) =>
      [1, 2].flatMap((more) =>
        lastRows(genet).map((row) => [row, genet, inBeds[row]!.plant!, `further ${more}`] as const),
      ),
    );
    expect(tell({ years: 2 })).toBeCloseTo(solvedAgain('S1-1', 'S4-2', years), 8);
    const plants = both.flatMap((genet) => {
      const row = lastRows(genet).at(-1)!;
      return [1, 2, 3].map(
        (more) => [row, genet, `${genet} new ${more}`, String(inBeds[row]!.year)] as const,
      );
    });
    expect(tell({ plants: 3 })).toBeCloseTo(solvedAgain('S1-1', 'S4-2', plants), 8);
  });

  it('is told of a genet without notes as if noted like the other', () => {
    const years = ['S1-1', 'N1'].flatMap((genet) =>
      lastRows('S1-1').map((row) => {
        const plant = genet === 'N1' ? 'first of N1' : inBeds[row]!.plant!;
        return [row, genet, plant, 'further 1'] as const;
      }),
    );
    expect(errorWithMore(garden, 'S1-1', 'N1')({ years: 1 })).toBeCloseTo(
      solvedAgain('S1-1', 'N1', years),
      8,
    );
  });
});

describe('where an estimate came from', () => {
  it('sums to the effect, whoever it is', () => {
    const values = genetValues(evaluation);
    for (const { genet, total } of values) {
      const { effect, parts } = informationParts(evaluation, genet);
      expect(effect).toBeCloseTo(total.effect, 7);
      expect(parts.reduce((sum, part) => sum + part.effect, 0)).toBeCloseTo(total.effect, 7);
      expect(parts.reduce((sum, part) => sum + part.notes, 0)).toBe(notes.length);
    }
  });

  it('names own notes, clones, parents, sibs, offspring and other kin', () => {
    const from = (genet: string) =>
      informationParts(evaluation, genet).parts.map((part) => [part.from, part.notes]);
    // S1-1 of P1 × P2 has 4 full sibs, and 10 half sibs in the crosses beside its own; three notes each.
    expect(from('S1-1')).toEqual([
      ['own notes', 3],
      ['clones', 3],
      ['parents', 6],
      ['sibs', 42],
      ['others', 39],
    ]);
    // A clone has the parents of its source.
    expect(from('C1')).toEqual(from('S1-1'));
    expect(from('P1').slice(0, 2)).toEqual([
      ['own notes', 3],
      ['offspring', 33],
    ]);
    // N1 of S2-1 × S3-1 stems from P2, P3 and P4: P1, P5 and their cross alone are no kin of it.
    expect(from('N1')).toEqual([
      ['parents', 6],
      ['other kin', 66],
      ['others', 21],
    ]);
  });
});

describe('the chance to be among the best', () => {
  it('sums to k, and of one of two is that of the pair', () => {
    const three = bestOf(evaluation, 3, null);
    expect(three.chances.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(3, 9);
    expect(three.chances[0]!.chance).toBeGreaterThan(three.chances.at(-1)!.chance);
    const only = { ...evaluation, listed: ['S1-1', 'S3-2'] };
    const { chances, draws } = bestOf(only, 1, null);
    const { chanceAMore } = comparePair(evaluation, 'S1-1', 'S3-2', null);
    const drawn = chances.find(({ id }) => id === 'S1-1')!.chance;
    // Four standard errors of a share of so many draws.
    expect(Math.abs(drawn - chanceAMore)).toBeLessThan(4 * Math.sqrt(0.25 / draws));
    const least = bestOf(only, 1, 'less').chances.find(({ id }) => id === 'S1-1')!.chance;
    expect(Math.abs(least - (1 - chanceAMore))).toBeLessThan(4 * Math.sqrt(0.25 / draws));
  });
});

describe('a report with kinship', () => {
  const shown = {
    trait: { code: 't', name: 'T', sort: 'measured', unit: 'cm', wanted: null },
    genets: new Map(entries.map(({ genet }) => [genet, { code: genet, name: null, standard: false }])),
  } as const;
  const report = reportEstimates(evaluation, notes, shown);

  it('lists genets without notes by their kin', () => {
    const seedling = report.estimates.find(({ id }) => id === 'N1')!;
    expect(seedling).toMatchObject({ notes: 0, mean: null, inbreeding: 0.125 });
    // S2-1 of P2 × P3 and S3-1 of P3 × P4 are half sibs, their coancestry is 1/8 (from memory, any textbook).
    expect(seedling.reliability).toBeGreaterThan(0);
    expect(seedling.reliability).toBeLessThan(report.estimates.find(({ id }) => id === 'S2-1')!.reliability!);
  });

  it('gives heritability and repeatability as shares of the variance of a note', () => {
    const [a, g, e] = ['additive', 'genet', 'residual'].map((term) => variances.get(term)!);
    expect(report.heritability!.value).toBeCloseTo(a! / (a! + g! + e!), 9);
    expect(report.repeatability!.value).toBeCloseTo((a! + g!) / (a! + g! + e!), 9);
    expect(report.heritability!.se).toBeGreaterThan(0);
    expect(report.accuracy).toBeGreaterThan(0.5);
    expect(report.accuracy).toBeLessThan(1);
  });
});
