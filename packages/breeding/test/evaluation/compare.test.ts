import {
  chooseModel,
  comparePair,
  type Evaluation,
  evaluate,
  reportEstimates,
  type TraitNote,
} from '@keelrow/breeding/evaluation';
import { fitModel } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { denseInverse } from '../../../quant/test/sparse/dense-reference.ts';
import { crossed, genets, notesOf } from './layouts.ts';

function evaluated(notes: readonly TraitNote[]): Evaluation {
  const evaluation = evaluate(notes);
  if (evaluation.fitted === null) throw new Error(evaluation.chosen.impossible ?? '');
  return evaluation;
}

/** An unbalanced little trial: six genets, two plants each, in one to three years. */
const trial = notesOf(
  crossed(crossed(genets(6), [1, 2]), [2030, 2031, 2032])
    .map(([[genet, k], year]) => ({ genet, plant: `${genet}/${k}`, year }))
    .filter((_, index) => index % 5 !== 3),
  7,
);

const times = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] =>
  a.map((row) => b[0]!.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0)));
const transposed = (a: readonly (readonly number[])[]): number[][] =>
  a[0]!.map((_, j) => a.map((row) => row[j]!));

/**
 * Best linear unbiased predictions of the genets and the covariance of their errors, from the definition by dense
 * matrices: û = G Z' P y, var(û − u) = G − G Z' P Z G with P = V⁻¹ − V⁻¹X(X'V⁻¹X)⁻¹X'V⁻¹
 * (source: Henderson C.R. 1975, Biometrics 31:423-447; Searle, Casella & McCulloch 1992, chapter 7).
 */
function byDefinition(notes: readonly TraitNote[], variance: Record<string, number>) {
  const { columns, fixed } = chooseModel(notes);
  const indicator = (name: string, from = 0): number[][] => {
    const levels = [...new Set(columns.get(name))].sort().slice(from);
    return columns.get(name)!.map((own) => levels.map((level) => (own === level ? 1 : 0)));
  };
  const x = notes.map((_, row) => [1, ...fixed.flatMap((name) => indicator(name, 1)[row]!)]);
  const [z, plants] = [indicator('genet'), indicator('plant')];
  const shared = (classes: number[][]) => times(classes, transposed(classes));
  const v = shared(z).map((row, i) =>
    row.map(
      (same, j) =>
        same * variance.genet! +
        shared(plants)[i]![j]! * variance.plant! +
        (i === j ? variance.residual! : 0),
    ),
  );
  const vi = denseInverse(v).inverse;
  const vx = times(vi, x);
  const gram = denseInverse(times(transposed(x), vx)).inverse;
  const away = times(times(vx, gram), transposed(vx));
  const p = vi.map((row, i) => row.map((value, j) => value - away[i]![j]!));
  const gz = transposed(z).map((row) => row.map((value) => value * variance.genet!));
  const gzp = times(gz, p);
  const told = times(gzp, transposed(gz));
  return {
    levels: [...new Set(columns.get('genet'))].sort(),
    effects: times(
      gzp,
      notes.map(({ value }) => [value]),
    ).map(([effect]) => effect!),
    errors: told.map((row, i) => row.map((value, j) => (i === j ? variance.genet! : 0) - value)),
  };
}

const variancesOf = ({ fitted }: Evaluation) =>
  Object.fromEntries(fitted.result.variances.map(({ term, estimate }) => [term, estimate]));

describe('two genets held against each other', () => {
  // At the best variances, as the definition has it; variances-in-doubt.test.ts has the rest.
  const told = evaluated(trial);
  const evaluation: Evaluation = { ...told, fits: [{ chance: 1, fitted: told.fitted }] };
  const { levels, effects, errors } = byDefinition(trial, variancesOf(evaluation));
  const at = (genet: string) => levels.indexOf(genet);

  it('differ as by the definition of the predictions, error covariance included', () => {
    expect(evaluation.model.random).toEqual(['genet', 'plant']);
    for (const [a, b] of [
      ['G1', 'G2'],
      ['G4', 'G3'],
      ['G6', 'G1'],
    ] as const) {
      const pair = comparePair(evaluation, a, b, 'cm');
      const [i, j] = [at(a), at(b)];
      expect(pair.difference).toBeCloseTo(effects[i]! - effects[j]!, 8);
      expect(pair.se).toBeCloseTo(Math.sqrt(errors[i]![i]! + errors[j]![j]! - 2 * errors[i]![j]!), 8);
      expect(pair).toMatchObject({ a, b, unit: 'cm' });
    }
  });

  it('differ less surely where the variances are in doubt', () => {
    for (const b of ['G2', 'G3', 'G6']) {
      const [doubted, known] = [comparePair(told, 'G1', b, null), comparePair(evaluation, 'G1', b, null)];
      expect(doubted.seInDoubt).toBeGreaterThan(known.seInDoubt);
      // The error at the best variances is the same, with and without the doubt beside it, as in a list of estimates.
      expect(doubted.se).toBe(known.se);
      expect(known.seInDoubt).toBeCloseTo(known.se, 10);
      // 1.28155: 90% point of the standard normal distribution (any table of it).
      expect((doubted.high - doubted.low) / 2 / doubted.seInDoubt).toBeCloseTo(1.28155, 5);
      const [one] = doubted.withMoreYears;
      expect(one!.seInDoubt / one!.se).toBeCloseTo(doubted.seInDoubt / doubted.se, 10);
    }
  });

  it('differ by as much, turned about, whichever is named first, on a bent scale too', () => {
    const logs = { ...told, scale: { ...told.scale, name: 'logarithm' as const, from: Math.exp }, level: 1 };
    for (const b of ['G2', 'G5']) {
      const [forth, back] = [comparePair(logs, 'G1', b, null), comparePair(logs, b, 'G1', null)];
      expect(back.difference).toBe(-forth.difference);
      expect([back.se, back.low, back.high]).toEqual([forth.se, -forth.high, -forth.low]);
      expect(back.seInDoubt).toBe(forth.seInDoubt);
      expect(forth.seInDoubt).toBeGreaterThan(forth.se);
      expect(back.chanceAMore).toBeCloseTo(1 - forth.chanceAMore, 12);
    }
  });

  it('have a chance by the normal distribution', () => {
    const pairs = crossed(levels, levels)
      .filter(([a, b]) => a !== b)
      .map(([a, b]) => comparePair(evaluation, a, b, null))
      .filter(({ difference, se }) => Math.abs(difference) < 3 * se);
    expect(pairs.length).toBeGreaterThan(5);
    for (const { difference, se, chanceAMore, low, high } of pairs) {
      // Φ by the series of its density (source: Abramowitz & Stegun 1964, 26.2.10).
      const z = difference / se;
      let [term, series] = [z, z];
      for (let n = 1; n < 80; n++) {
        term *= (-z * z) / (2 * n);
        series += term / (2 * n + 1);
      }
      expect(chanceAMore).toBeCloseTo(0.5 + series / Math.sqrt(2 * Math.PI), 10);
      // 80% of a normal lies within 1.281552 standard errors (from memory, any normal table).
      expect(high - low).toBeCloseTo(2 * 1.281552 * se, 5);
    }
  });

  it('would be told apart by more years as if these had been noted', () => {
    const { withMoreYears } = comparePair(evaluation, 'G1', 'G2', null);
    // The same written out: both noted again, as in their last year, in 2033 and in 2034.
    const again = (year: number) =>
      trial
        .filter(({ genet, year: noted }) => (genet === 'G1' || genet === 'G2') && noted === 2032)
        .map((note) => ({ ...note, note: `${note.note} ${year}`, year, value: 40 + (year % 7) }));
    const more = [...trial, ...again(2033), ...again(2034)];
    const { columns, fixed, random } = chooseModel(more);
    const refitted = fitModel(
      { columns: new Map([...columns, ['value', more.map(({ value }) => String(value))]]) },
      { response: 'value', fixed, random, held: variancesOf(evaluation) },
    );
    const { se } = refitted.combine([
      { term: 'genet', level: 'G1', weight: 1 },
      { term: 'genet', level: 'G2', weight: -1 },
    ]);
    expect(withMoreYears.map(({ years }) => years)).toEqual([1, 2, 3]);
    expect(withMoreYears[1]!.se).toBeCloseTo(se, 8);
    expect(withMoreYears[0]!.se).toBeLessThan(comparePair(evaluation, 'G1', 'G2', null).se);
    expect(withMoreYears[2]!.se).toBeLessThan(withMoreYears[1]!.se);
  });

  it('are a toss-up where genets show no difference', () => {
    // Ranks exchanged from year to year: genet by genet the same mean.
    const even = notesOf(
      crossed(genets(4), [2030, 2031, 2032, 2033]).map(([genet, year], index) => ({
        genet,
        year,
        value: 10 + ((Math.floor(index / 4) + year) % 4),
      })),
    );
    const alike = evaluated(even);
    expect(comparePair(alike, 'G1', 'G2', null)).toMatchObject({ difference: 0, se: 0, chanceAMore: 0.5 });
    const shown = {
      trait: { code: 't', name: 'T', sort: 'measured', unit: null, wanted: null },
      genets: new Map(),
    } as const;
    expect(reportEstimates(alike, even, shown).heed).toContain(
      'The notes show no difference between genets beyond chance: this ranking says nothing.',
    );
  });
});

describe('an evaluation does not depend on', () => {
  const byGenet = (notes: readonly TraitNote[]) =>
    new Map(
      evaluated(notes)
        .fitted.result.effects.filter(({ term }) => term === 'genet')
        .map(({ level, estimate, se }) => [level, { estimate, se }]),
    );
  const first = byGenet(trial);

  it('the order of the notes', () => {
    const other = byGenet(trial.toReversed());
    for (const [genet, { estimate, se }] of first) {
      expect(other.get(genet)!.estimate).toBeCloseTo(estimate, 5);
      expect(other.get(genet)!.se).toBeCloseTo(se, 5);
    }
  });

  it('the names of genets and plants', () => {
    const renamed = (name: string) => `x${9 - Number(name.slice(1, 2))}${name.slice(2)}`;
    const other = byGenet(
      trial.map((note) => ({ ...note, genet: renamed(note.genet), plant: renamed(note.plant!) })),
    );
    for (const [genet, { estimate }] of first)
      expect(other.get(renamed(genet))!.estimate).toBeCloseTo(estimate, 5);
  });

  it('the unit, but for its scale and origin', () => {
    const other = byGenet(trial.map((note) => ({ ...note, value: 3 * note.value + 1000 })));
    for (const [genet, { estimate, se }] of first) {
      expect(other.get(genet)!.estimate).toBeCloseTo(3 * estimate, 4);
      expect(other.get(genet)!.se).toBeCloseTo(3 * se, 4);
    }
  });
});
