import { describe, expect, it } from 'vitest';
import { fitTable, seededRandom, type Table } from '../../src/index.ts';

/** Groups whose means differ less than chance would have it, crossed with blocks that truly differ. */
function evenGroups(): Table {
  const random = seededRandom(8);
  const cells: string[][] = [[], [], []];
  for (let group = 0; group < 6; group++) {
    const noise = Array.from({ length: 8 }, () => random.normal());
    const mean = noise.reduce((sum, e) => sum + e, 0) / 8;
    noise.forEach((e, block) => {
      cells[0]!.push(`g${group}`);
      cells[1]!.push(`b${block}`);
      // The group's own mean error is taken off: group means are equal but for the blocks.
      cells[2]!.push((10 + 3 * Math.sin(block) + e - mean).toFixed(6));
    });
  }
  return { columns: new Map(['group', 'block', 'y'].map((name, c) => [name, cells[c]!])) };
}

describe('a variance whose likelihood is highest at zero', () => {
  const table = evenGroups();
  const result = fitTable(table, { response: 'y', fixed: [], random: ['group', 'block'] });
  const without = fitTable(table, { response: 'y', fixed: [], random: ['block'] });

  it('is exactly 0, said in a warning, its effects 0 without reliability', () => {
    expect(result.converged).toBe(true);
    expect(result.variances[0]).toEqual({ term: 'group', estimate: 0, se: null });
    expect(result.warnings).toEqual([
      'The variance of "group" lies at its lower bound: it is taken as 0, and so are its effects.',
    ]);
    const effects = result.effects.filter((effect) => effect.term === 'group');
    expect(effects.length).toBe(6);
    for (const effect of effects) expect(effect).toMatchObject({ estimate: 0, se: 0, reliability: null });
  });

  it('leaves the fit of the model without that term', () => {
    expect(Math.abs(result.remlLogLikelihood - without.remlLogLikelihood)).toBeLessThan(1e-9);
    expect(Math.abs(result.variances[1]!.estimate / without.variances[0]!.estimate - 1)).toBeLessThan(1e-4);
    const blocks = result.effects.filter((effect) => effect.term === 'block');
    blocks.forEach((effect, i) => {
      expect(effect.estimate).toBeCloseTo(without.effects[i]!.estimate, 5);
      expect(effect.se).toBeCloseTo(without.effects[i]!.se, 5);
    });
  });

  it('does no better held just above zero', () => {
    const above = fitTable(table, {
      response: 'y',
      fixed: [],
      random: ['group', 'block'],
      held: { group: 0.01 },
    });
    expect(above.remlLogLikelihood).toBeLessThan(result.remlLogLikelihood);
  });

  it('can be the only one: what is left is least squares', () => {
    const alone = fitTable(table, { response: 'y', fixed: ['block'], random: ['group'] });
    const y = table.columns.get('y')!.map(Number);
    const block = table.columns.get('block')!;
    const means = new Map<string, number>();
    block.forEach((level, k) => {
      means.set(level, (means.get(level) ?? 0) + y[k]! / 6);
    });
    const squares = y.reduce((sum, value, k) => sum + (value - means.get(block[k]!)!) ** 2, 0);
    expect(alone.variances[0]!.estimate).toBe(0);
    expect(alone.variances[1]!.estimate).toBeCloseTo(squares / (48 - 8), 10);
    // A residual variance s² on f degrees of freedom has standard error s² √(2 / f).
    expect(alone.variances[1]!.se).toBeCloseTo((squares / 40) * Math.sqrt(2 / 40), 8);
    expect(alone.fixed[1]!.se).toBeCloseTo(Math.sqrt((2 / 6) * (squares / 40)), 8);
  });
});

describe('a search far from its starting values', () => {
  it('reaches a variance that is a million times the residual', () => {
    const random = seededRandom(9);
    const cells: string[][] = [[], []];
    for (let group = 0; group < 12; group++) {
      const effect = random.normal(0, 1000);
      for (let k = 0; k < 4; k++) {
        cells[0]!.push(String(group));
        cells[1]!.push((effect + random.normal()).toFixed(6));
      }
    }
    const table: Table = { columns: new Map([['group', cells[0]!] as const, ['y', cells[1]!] as const]) };
    const result = fitTable(table, { response: 'y', fixed: [], random: ['group'] });
    // Balanced one-way layout: REML is the analysis of variance (Searle, Casella & McCulloch 1992, section 3.8).
    const y = cells[1]!.map(Number);
    const means = Array.from(
      { length: 12 },
      (_, g) => y.slice(4 * g, 4 * g + 4).reduce((sum, v) => sum + v, 0) / 4,
    );
    const grand = means.reduce((sum, v) => sum + v, 0) / 12;
    const between = (4 * means.reduce((sum, m) => sum + (m - grand) ** 2, 0)) / 11;
    const within = y.reduce((sum, v, k) => sum + (v - means[Math.floor(k / 4)]!) ** 2, 0) / 36;
    expect(result.converged).toBe(true);
    expect(Math.abs(result.variances[0]!.estimate / ((between - within) / 4) - 1)).toBeLessThan(1e-5);
    expect(Math.abs(result.variances[1]!.estimate / within - 1)).toBeLessThan(1e-5);
  });
});
