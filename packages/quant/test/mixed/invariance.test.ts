import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FitResult, fitTable, type Model, seededRandom, type Table } from '../../src/index.ts';
import { readTable, reordered } from './tables.ts';

const folder = new URL('../fixtures/', import.meta.url).pathname;
const oats = readTable(`${folder}oats/data.csv`);
const barley = readTable(`${folder}barley/data.csv`);
const OATS: Model = { response: 'yield', fixed: ['Variety', 'nitroF'], random: ['Block', 'Block*Variety'] };
const BARLEY: Model = { response: 'yield', fixed: ['year'], random: ['variety', 'site', 'site*year'] };

const variancesOf = (result: FitResult) => result.variances.map((variance) => variance.estimate);

function expectClose(got: FitResult, expected: FitResult, allowed: number): void {
  expect(Math.abs(got.remlLogLikelihood - expected.remlLogLikelihood)).toBeLessThan(allowed);
  variancesOf(got).forEach((value, i) => {
    expect(Math.abs(value / variancesOf(expected)[i]! - 1)).toBeLessThan(allowed);
  });
}

function renamed(table: Table, column: string, name: (level: string) => string): Table {
  return {
    columns: new Map(
      [...table.columns].map(([key, cells]) => [key, key === column ? cells.map(name) : cells]),
    ),
  };
}

describe('a fit does not depend on', () => {
  it('the order of the rows', () => {
    const whole = fitTable(barley, BARLEY);
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const order = seededRandom(seed).shuffle(Array.from({ length: 120 }, (_, i) => i));
        const shuffled = fitTable(reordered(barley, order), BARLEY);
        expectClose(shuffled, whole, 1e-7);
        expect(shuffled.effects.map((effect) => effect.level)).toEqual(
          whole.effects.map((effect) => effect.level),
        );
      }),
      { seed: 31, numRuns: 15 },
    );
  });

  it('the names of the levels, nor on which of them is the base', () => {
    const whole = fitTable(oats, OATS);
    const other = renamed(oats, 'Variety', (level) => `${level.length}-${level === 'Victory' ? '0' : level}`);
    expectClose(fitTable(other, OATS), whole, 1e-7);
  });

  it('the origin of the response, nor on its unit but for scale', () => {
    const whole = fitTable(oats, OATS);
    const moved = fitTable(
      renamed(oats, 'yield', (cell) => String(Number(cell) / 4 + 1e6)),
      OATS,
    );
    variancesOf(moved).forEach((value, i) => {
      expect(Math.abs((16 * value) / variancesOf(whole)[i]! - 1)).toBeLessThan(1e-6);
    });
    // Each of the 72 - 6 contrasts is divided by 4.
    expect(moved.remlLogLikelihood - 66 * Math.log(4)).toBeCloseTo(whole.remlLogLikelihood, 5);
    expect(moved.fixed[0]!.estimate).toBeCloseTo(whole.fixed[0]!.estimate / 4 + 1e6, 6);
  });

  it('the run: bit for bit the same', () => {
    expect(fitTable(barley, BARLEY)).toEqual(fitTable(barley, BARLEY));
  });
});

describe('held variances', () => {
  it('give the free fit when held at its optimum', () => {
    const free = fitTable(barley, BARLEY);
    const held = Object.fromEntries(free.variances.map(({ term, estimate }) => [term, estimate]));
    const fixed = fitTable(barley, { ...BARLEY, held });
    expect(fixed.iterations).toBe(0);
    expect(fixed.variances.every((variance) => variance.se === null)).toBe(true);
    expect(Math.abs(fixed.remlLogLikelihood - free.remlLogLikelihood)).toBeLessThan(1e-9);
    fixed.effects.forEach((effect, i) => {
      expect(Math.abs(effect.estimate - free.effects[i]!.estimate)).toBeLessThan(1e-9);
      expect(Math.abs(effect.se - free.effects[i]!.se)).toBeLessThan(1e-9);
    });
  });

  it('leave the others free: held at its optimum one does not move them', () => {
    const free = fitTable(oats, OATS);
    const block = free.variances[0]!.estimate;
    const partly = fitTable(oats, { ...OATS, held: { Block: block } });
    expectClose(partly, free, 1e-5);
    expect(partly.variances[0]).toEqual({ term: 'Block', estimate: block, se: null });
    // Knowing one variance can only make the others surer.
    expect(partly.variances[1]!.se!).toBeLessThan(free.variances[1]!.se! * (1 + 1e-6));
  });

  it('at 0 leave a term out', () => {
    const without = fitTable(oats, { ...OATS, random: ['Block'] });
    const held = fitTable(oats, { ...OATS, held: { 'Block*Variety': 0 } });
    expectClose({ ...held, variances: held.variances.filter((v) => v.estimate > 0) }, without, 2e-5);
    expect(held.warnings).toEqual([]);
  });
});
