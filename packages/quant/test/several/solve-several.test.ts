import { describe, expect, it } from 'vitest';
import { solveSeveral } from '../../src/index.ts';
import { denseReml } from '../mixed/dense-likelihood.ts';
import { denseInverse } from '../sparse/dense-reference.ts';
import { denseTraits, KINSHIP, simulatedRows, tablesOf } from './dense-traits.ts';

// source: definitions of best linear unbiased prediction and its errors (C. R. Henderson 1975, Biometrics 31:423-447), written
// down with dense matrices.

const rows = simulatedRows(4, 40);
const tables = tablesOf(rows);
const additive = [
  [1.2, 20, -0.01],
  [20, 900, 0.1],
  [-0.01, 0.1, 0.0005],
];
const plot = [
  [0.8, -10, 0],
  [-10, 500, 0],
  [0, 0, 0],
];
const residual = [
  [2, 20, 0.02],
  [20, 1500, 0.1],
  [0.02, 0.1, 0.0008],
];
const flat = (m: number[][]) => Float64Array.from(m.flat());
const covariances = new Map([
  ['additive', flat(additive)],
  ['plot', flat(plot)],
  ['residual', flat(residual)],
]);
const solved = solveSeveral(tables, covariances, ['additive', 'plot']);
const dense = denseTraits(rows, [0, 1, 2]);
const v = dense.v(additive, plot, residual);
const fit = denseReml(dense.x, v, dense.y);
const { inverse } = denseInverse(v);
const vx = inverse.map((line) =>
  dense.x[0]!.map((_, j) => line.reduce((s, value, k) => s + value * dense.x[k]![j]!, 0)),
);

/** Estimate and errors of Σ effects: cov with y is c (per row), fixed shares k, own covariance g. */
function predicted(c: number[][], k: number[][], g: number[][]) {
  const estimates = c.map(
    (line, a) =>
      line.reduce((s, value, i) => s + value * fit.weighted[i]!, 0) +
      k[a]!.reduce((s, value, j) => s + value * fit.fixed[j]!, 0),
  );
  const rest = c.map((line, a) =>
    k[a]!.map((value, j) => value - line.reduce((s, x, i) => s + x * vx[i]![j]!, 0)),
  );
  const errors = c.map((left, a) =>
    c.map((right, b) => {
      const explained = left.reduce(
        (s, x, i) => s + x * inverse[i]!.reduce((t, value, j) => t + value * right[j]!, 0),
        0,
      );
      const fixedPart = rest[a]!.reduce(
        (s, x, i) => s + x * fit.fixedCovariance[i]!.reduce((t, value, j) => t + value * rest[b]![j]!, 0),
        0,
      );
      return g[a]![b]! - explained + fixedPart;
    }),
  );
  return { estimates, errors };
}

/** Sum of the additive effect of an animal and the effect of a plot (none: -1), for each trait. */
function sums(animal: number, plotNumber: number, k = [0, 1, 2].map(() => dense.x[0]!.map(() => 0))) {
  const c = [0, 1, 2].map((a) =>
    dense.y.map((_, i) => {
      const b = dense.trait[i]!;
      const row = dense.row[i]!;
      return (
        (animal < 0 ? 0 : additive[a]![b]! * KINSHIP[animal]![row.animal]!) +
        (row.plot === plotNumber ? plot[a]![b]! : 0)
      );
    }),
  );
  const g = additive.map((line, a) =>
    line.map((value, b) => (animal < 0 ? 0 : value * KINSHIP[animal]![animal]!) + plot[a]![b]!),
  );
  return predicted(c, k, g);
}

describe('three traits with unlike models, units and missing rows', () => {
  it('have the likelihood of the definition', () => {
    expect(Math.abs(solved.remlLogLikelihood - fit.logLikelihood)).toBeLessThan(1e-7);
  });

  it('have sums of a level with their errors across traits, and means with them', () => {
    const mean = [
      [{ term: 'intercept', level: null, weight: 1 }],
      [
        { term: 'intercept', level: null, weight: 1 },
        { term: 'x', level: null, weight: 7 },
      ],
      [{ term: 'season', level: 's1', weight: 0.5 }],
    ];
    const k = [0, 1, 2].map(() => dense.x[0]!.map(() => 0));
    k[0]![0] = 1;
    k[1]![3] = 1;
    k[1]![6] = 7;
    k[2]![8] = 0.5;
    // Plots have other names than animals: a level lacks one term or the other.
    for (const common of [undefined, mean]) {
      const found = solved.sumsOfLevels(['additive', 'plot'], common);
      const shares = common ? k : undefined;
      expect(found.levels.slice(-2)).toEqual(['p7', 'p8']);
      for (const [level, animal, plotNumber] of [
        ['3', 2, -1],
        ['8', 7, -1],
        ['p4', -1, 4],
      ] as const) {
        const i = found.levels.indexOf(level);
        const expected = sums(animal, plotNumber, shares);
        const prior = animal < 0 ? additive : null;
        for (let a = 0; a < 3; a++) {
          const size = Math.sqrt(residual[a]![a]!);
          expect(Math.abs(found.estimates[3 * i + a]! - expected.estimates[a]!)).toBeLessThan(1e-8 * size);
          for (let b = 0; b < 3; b++) {
            const error = expected.errors[a]![b]! + (prior ? prior[a]![b]! : 0);
            const off = found.covariances[9 * i + 3 * a + b]! - error;
            expect(Math.abs(off)).toBeLessThan(1e-8 * size * Math.sqrt(residual[b]![b]!));
          }
        }
      }
    }
  });

  it('have the same sums where the inverse was not laid out for them', () => {
    const unlinked = solveSeveral(tables, covariances, []).sumsOfLevels(['additive', 'plot']);
    const linked = solved.sumsOfLevels(['additive', 'plot']);
    linked.covariances.forEach((value, e) => {
      expect(unlinked.covariances[e]!).toBeCloseTo(value, 7);
    });
  });

  it('are solved each alone where nothing ties them', () => {
    const apart = (m: number[][]) =>
      Float64Array.from(m.flatMap((line, a) => line.map((x, b) => (a === b ? x : 0))));
    const untied = new Map(
      [...covariances].map(([name], i) => [name, apart([additive, plot, residual][i]!)]),
    );
    const together = solveSeveral(tables, untied, ['additive']).sumsOfLevels(['additive']);
    tables.forEach((table, t) => {
      const own = new Map([...untied].map(([name, matrix]) => [name, Float64Array.of(matrix[4 * t]!)]));
      const alone = solveSeveral([table], own, ['additive']).sumsOfLevels(['additive']);
      alone.estimates.forEach((value, i) => {
        expect(Math.abs(together.estimates[3 * i + t]! - value)).toBeLessThan(
          1e-9 * Math.sqrt(residual[t]![t]!),
        );
      });
    });
  });

  it('give the same numbers, bit for bit, on every run', () => {
    const again = solveSeveral(tables, covariances, ['additive', 'plot']);
    expect(again.sumsOfLevels(['additive', 'plot'])).toMatchObject({
      estimates: solved.sumsOfLevels(['additive', 'plot']).estimates,
      covariances: solved.sumsOfLevels(['additive', 'plot']).covariances,
    });
  });

  it('can be stopped', () => {
    expect(() => solveSeveral(tables, covariances, [], { isCancelled: () => true })).toThrow('was stopped');
  });
});
