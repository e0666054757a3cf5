import { describe, expect, it } from 'vitest';
import { fitModel, fitTable, seededRandom, type Table } from '../../src/index.ts';
import { additiveOf, lowerRoot } from './additive-of.ts';
import { denseReml } from './dense-likelihood.ts';
import { parseTable } from './tables.ts';

// source: examples 3.1 and 4.1 of R. A. Mrode (2014), Linear Models for the Prediction of Animal Breeding Values, 3rd ed.,
// CABI; data and covariance matrices as recalled from there (from memory), solutions and error variances by an independent
// dense calculation. The printed solutions are rounded to three decimals; 4.358502 stands there as 4.358.

const GAIN = parseTable(`animal,sex,gain
4,male,4.5
5,female,2.9
6,female,3.9
7,male,3.5
8,male,5`);

const GAIN_COVARIANCE = [
  [1, 0, 0, 0.5, 0, 0.5, 0.25, 0.25],
  [0, 1, 0, 0, 0.5, 0.5, 0.25, 0.25],
  [0, 0, 1, 0, 0.5, 0, 0.25, 0.5],
  [0.5, 0, 0, 1, 0, 0.25, 0.5, 0.125],
  [0, 0.5, 0.5, 0, 1, 0.25, 0.5, 0.375],
  [0.5, 0.5, 0, 0.25, 0.25, 1, 0.25, 0.5],
  [0.25, 0.25, 0.25, 0.5, 0.5, 0.25, 1, 0.25],
  [0.25, 0.25, 0.5, 0.125, 0.375, 0.5, 0.25, 1],
];

const FAT = parseTable(`cow,parity,hys,fat
4,1,1,201
4,2,3,280
5,1,1,150
5,2,4,200
6,1,2,160
6,2,3,190
7,1,1,180
7,2,3,250
8,1,2,285
8,2,4,300`);

const FAT_COVARIANCE = [
  [1, 0, 0, 0.5, 0, 0.5, 0.25, 0.625],
  [0, 1, 0, 0.5, 0.5, 0.25, 0.25, 0.125],
  [0, 0, 1, 0, 0.5, 0.25, 0.5, 0.25],
  [0.5, 0.5, 0, 1, 0.25, 0.375, 0.5, 0.5],
  [0, 0.5, 0.5, 0.25, 1, 0.5, 0.375, 0.1875],
  [0.5, 0.25, 0.25, 0.375, 0.5, 1, 0.3125, 0.40625],
  [0.25, 0.25, 0.5, 0.5, 0.375, 0.3125, 1, 0.625],
  [0.625, 0.125, 0.25, 0.5, 0.1875, 0.40625, 0.625, 1.125],
];

describe('effects with a known covariance', () => {
  it('equal the worked animal model (example 3.1)', () => {
    const fitted = fitModel(GAIN, {
      response: 'gain',
      fixed: ['sex'],
      random: [],
      additive: additiveOf('animal', GAIN_COVARIANCE),
      held: { additive: 20, residual: 40 },
    });
    const { result } = fitted;
    expect(result).toMatchObject({ converged: true, iterations: 0 });
    expect(result.variances).toEqual([
      { term: 'additive', estimate: 20, se: null },
      { term: 'residual', estimate: 40, se: null },
    ]);
    const female = fitted.combine([{ term: 'intercept', level: null, weight: 1 }]);
    expect(female.estimate).toBeCloseTo(3.40443000590667, 10);
    expect(female.se).toBeCloseTo(5.66554023294586, 10);
    const male = fitted.combine([
      { term: 'intercept', level: null, weight: 1 },
      { term: 'sex', level: 'male', weight: 1 },
    ]);
    expect(male.estimate).toBeCloseTo(4.35850232985496, 10);
    expect(male.se).toBeCloseTo(4.88082357807458, 10);
    const estimates = [0.098444575703879, -0.0187700991008726, -0.0410842029270851, -0.00866312266194092];
    estimates.push(-0.185732099494651, 0.176872087681302, -0.249458554833628, 0.182614687930695);
    const errorVariances = [18.8437684583579, 19.6838288376977, 18.2583513815055, 17.1072061429415];
    errorVariances.push(17.1242698693969, 17.6913106254512, 17.6742468989959, 16.8945658594211);
    result.effects.forEach((effect, i) => {
      expect(effect.term).toBe('additive');
      expect(effect.estimate).toBeCloseTo(estimates[i]!, 10);
      expect(effect.se ** 2).toBeCloseTo(errorVariances[i]!, 9);
    });
    // Printed reliabilities of the book, from memory.
    const reliability = [0.058, 0.016, 0.087, 0.144, 0.144, 0.116, 0.116, 0.155];
    result.effects.forEach((effect, i) => {
      expect(Math.abs(effect.reliability! - reliability[i]!)).toBeLessThan(7e-4);
    });
    expect(result.remlLogLikelihood).toBeCloseTo(-9.65460464737663, 10);
  });

  it('equal the worked repeatability model (example 4.1), an aliased column left out', () => {
    const fitted = fitModel(FAT, {
      response: 'fat',
      fixed: ['parity', 'hys'],
      random: ['cow'],
      additive: additiveOf('cow', FAT_COVARIANCE),
      held: { additive: 20, cow: 12, residual: 28 },
    });
    const { result } = fitted;
    expect(result.warnings).toEqual([
      'Left out, because earlier columns or missing combinations determine them: hys 4.',
    ]);
    expect(result.fixed.map(({ term, level }) => [term, level])).toEqual([
      ['intercept', null],
      ['parity', '2'],
      ['hys', '2'],
      ['hys', '3'],
    ]);
    expect(result.remlLogLikelihood).toBeCloseTo(-129.356474946454, 9);
    const mean = (effects: readonly (readonly [string, string])[]) =>
      fitted.combine([
        { term: 'intercept', level: null, weight: 1 },
        ...effects.map(([term, level]) => ({ term, level, weight: 1 })),
      ]);
    // There: parity 1 with hys 1, and parity 2 with hys 3.
    expect(mean([]).estimate).toBeCloseTo(175.472013490922, 9);
    expect(mean([]).se).toBeCloseTo(4.87281840526967, 9);
    const second = mean([
      ['parity', '2'],
      ['hys', '3'],
    ]);
    expect(second.estimate).toBeCloseTo(241.892923492258, 9);
    expect(second.se).toBeCloseTo(4.89514133627873, 9);
    const additive = result.effects.filter((effect) => effect.term === 'additive');
    const estimates = [10.1475704810171, -3.084152950788, -7.06341753022911, 13.5807430216459];
    estimates.push(-18.2069724478279, -18.3867817395528, 9.32843242279861, 24.193618432541);
    additive.forEach((effect, i) => {
      expect(effect.estimate).toBeCloseTo(estimates[i]!, 9);
    });
    // The eighth is inbred by 0.125: its own variance is 22.5.
    expect(additive[7]!.se ** 2).toBeCloseTo(18.4643583031352, 9);
    expect(additive[7]!.reliability).toBeCloseTo(0.179361853193989, 10);
    const cow = result.effects.filter((effect) => effect.term === 'cow');
    expect(cow.map((effect) => effect.level)).toEqual(['4', '5', '6', '7', '8']);
    expect(cow[0]!.estimate).toBeCloseTo(8.41697930158346, 9);
    expect(cow[0]!.se).toBeCloseTo(3.03895386398577, 9);
  });

  it('have free variances at the summit of the likelihood as defined by dense matrices', () => {
    // Forty rows on the eight animals of example 4.1, drawn with their covariance; a class beside it.
    const random = seededRandom(77);
    const root = lowerRoot(FAT_COVARIANCE);
    const unit = root.map(() => random.normal());
    const effects = root.map((row) => 3 * row.reduce((sum, value, k) => sum + value * unit[k]!, 0));
    const rows = Array.from({ length: 40 }, (_, k) => {
      const animal = random.integer(8);
      return { animal, pen: k % 5, y: Number((effects[animal]! + (k % 5) + random.normal()).toFixed(4)) };
    });
    const table: Table = {
      columns: new Map([
        ['animal', rows.map(({ animal }) => String(animal + 1))],
        ['pen', rows.map(({ pen }) => String(pen))],
        ['y', rows.map(({ y }) => String(y))],
      ]),
    };
    const result = fitTable(table, {
      response: 'y',
      fixed: ['pen'],
      random: [],
      additive: additiveOf('animal', FAT_COVARIANCE),
    });
    const design = rows.map(({ pen }) =>
      [1, 1, 2, 3, 4].map((level, j) => (j === 0 || pen === level ? 1 : 0)),
    );
    const likelihood = (additive: number, residual: number) =>
      denseReml(
        design,
        rows.map((a, k) =>
          rows.map((b, l) => additive * FAT_COVARIANCE[a.animal]![b.animal]! + (k === l ? residual : 0)),
        ),
        rows.map(({ y }) => y),
      ).logLikelihood;
    const [additive, residual] = result.variances.map((variance) => variance.estimate);
    const top = likelihood(additive!, residual!);
    expect(Math.abs(result.remlLogLikelihood - top)).toBeLessThan(1e-8);
    for (const factor of [0.97, 1.03]) {
      expect(likelihood(additive! * factor, residual!)).toBeLessThan(top);
      expect(likelihood(additive!, residual! * factor)).toBeLessThan(top);
    }
  });

  it('let levels share an equation, as copies of one another', () => {
    const single = additiveOf('animal', GAIN_COVARIANCE);
    const model = { response: 'gain', fixed: ['sex'], random: [], held: { additive: 20, residual: 40 } };
    const shared = fitTable(GAIN, {
      ...model,
      additive: {
        ...single,
        levels: [...single.levels, 'copy of 8'],
        equations: Int32Array.of(0, 1, 2, 3, 4, 5, 6, 7, 7),
        inbreeding: new Float64Array(9),
      },
    });
    const plain = fitTable(GAIN, { ...model, additive: single });
    expect(shared.effects.slice(0, 8)).toEqual(plain.effects);
    expect(shared.effects[8]).toEqual({ ...plain.effects[7], level: 'copy of 8' });
  });

  it('name the row of a level that the covariance does not know', () => {
    const additive = {
      ...additiveOf('animal', GAIN_COVARIANCE),
      listedIn: 'the pedigree',
      levels: ['1', '2', '3', '4', '5', '6', '7', 'x'],
    };
    expect(() => fitTable(GAIN, { response: 'gain', fixed: [], random: [], additive })).toThrow(
      'row 6, column "animal": "8" is not in the pedigree. Add it there.',
    );
  });
});
