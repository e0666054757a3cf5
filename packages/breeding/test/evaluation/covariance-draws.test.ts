import { evaluate, type TraitNote } from '@keelrow/breeding/evaluation';
import { seededRandom, type TwoTraitFit, type TwoTraitTerm } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { correlationBelief } from '../../src/evaluation/joint/correlation-belief.ts';
import { covarianceDraws } from '../../src/evaluation/joint/covariance-draws.ts';
import { jointCovariances } from '../../src/evaluation/joint/joint-covariances.ts';
import { jointTables } from '../../src/evaluation/joint/joint-tables.ts';
import { choleskyFactor } from '../../src/evaluation/variances-in-doubt/truncated-normal-points.ts';

/** A fit of one term with these variances, their errors and a correlation. */
function fitOf(
  term: string,
  { v, w, r, se }: { v: [number, number | null]; w: [number, number | null]; r: number; se: number | null },
  errors: TwoTraitFit['errors'] = null,
): TwoTraitFit {
  const told: TwoTraitTerm = {
    term,
    variances: [
      { value: v[0], se: v[1] },
      { value: w[0], se: w[1] },
    ],
    covariance: { value: r * Math.sqrt(v[0] * w[0]), se: null },
    correlation: { value: r, se },
    remark: null,
  };
  return {
    traits: ['a', 'b'],
    converged: true,
    iterations: 1,
    remlLogLikelihood: 0,
    apartLogLikelihood: 0,
    terms: [told],
    warnings: [],
    errors,
  };
}

/** Error covariances of v, w and c from n pairs of normal numbers (source: Wishart 1928; Anderson 2003, section 3.4). */
function wishart(term: string, v: number, w: number, c: number, n: number): TwoTraitFit['errors'] {
  const matrix = [2 * v * v, 2 * c * c, 2 * v * c, 2 * c * c, 2 * w * w, 2 * w * c];
  matrix.push(2 * v * c, 2 * w * c, v * w + c * c);
  return {
    parameters: [
      { term, of: 0 },
      { term, of: 1 },
      { term, of: 'covariance' },
    ],
    matrix: Float64Array.from(matrix, (value) => value / n),
  };
}

describe('what is believed of a correlation', () => {
  const [v, w, r] = [4, 9, 0.6];
  const c = r * 6;

  it('has the error 1/√n of Fisher’s z where n pairs were seen, joined with the usual 0.5', () => {
    // source: R. A. Fisher 1921, Metron 1:3-32, var z = 1/n in large samples; normal times normal by hand.
    for (const n of [25, 400]) {
      const errors = wishart('additive', v, w, c, n);
      const fit = fitOf('additive', { v: [v, 3], w: [w, 7], r, se: (1 - r * r) / Math.sqrt(n) }, errors);
      const { terms, mean, root } = correlationBelief(fit, []);
      expect(terms).toEqual(['additive']);
      expect(mean[0]).toBeCloseTo(Math.atanh(r) / (1 + 4 / n), 6);
      expect(root[0]![0]).toBeCloseTo(Math.sqrt(1 / (n + 4)), 6);
    }
  });

  it('at its bound has Robertson’s error, so that a sign is believed and no certainty', () => {
    // source: Robertson 1959: se(r)/(1 − r²) = √(se(v) se(w)/(2 v w)) = √(2 × 3/(2 × 4 × 9)) = 0.288675, by hand.
    const belief = correlationBelief(
      fitOf('genet', { v: [4, 2], w: [9, 3], r: -1, se: null }, wishart('none', 1, 1, 0, 9)),
      [],
    );
    const share = 0.25 / (0.25 + 6 / 72);
    expect(belief.mean[0]).toBeCloseTo(-share * Math.atanh(0.99), 6);
    expect(belief.root[0]![0]).toBeCloseTo(Math.sqrt(share * (6 / 72)), 6);
  });

  it('that no note tells is around 0, and that of terms taken apart is none', () => {
    const untold = fitOf('genet', { v: [4, 2], w: [9, 3], r: 0, se: null });
    const { mean, root } = correlationBelief(untold, []);
    expect(mean[0]).toBe(0);
    expect(root[0]![0]).toBeCloseTo(0.5, 5);
    expect(correlationBelief(untold, ['genet']).terms).toEqual([]);
    expect(correlationBelief(fitOf('plant', { v: [4, 2], w: [9, 3], r: 0, se: null }), []).terms).toEqual([]);
  });
});

describe('covariances that may be the true ones', () => {
  /** Forty genets, two plants each in two years; three traits, of which two go together. */
  const lines = (() => {
    const random = seededRandom('forty genets');
    const notes: TraitNote[][] = [[], [], []];
    for (let g = 0; g < 40; g++) {
      const [a, b, c] = [random.normal(), random.normal(), random.normal()];
      const worth = [10 * a, 8 * a + 6 * b, 10 * c];
      for (const plant of [1, 2])
        for (const year of [2030, 2031])
          for (const [t, own] of worth.entries())
            notes[t]!.push({
              note: `${t} ${g} ${plant} ${year}`,
              value: 50 + own + 10 * random.normal(),
              genet: `G${g}`,
              plant: `G${g}/${plant}`,
              year,
              site: 'home',
              bed: null,
              age: null,
              observer: null,
            });
    }
    return notes.map((own, t) => {
      const evaluation = evaluate(own);
      if (evaluation.fitted === null) throw new Error(evaluation.chosen.impossible ?? '');
      return { key: `${t}`, evaluation };
    });
  })();
  const evaluations = lines.map(({ evaluation }) => evaluation);
  const { pairs, apart } = jointTables(lines, null, []);
  const covariances = jointCovariances(pairs, apart, {});
  const drawn = covarianceDraws(evaluations, covariances, apart);
  const correlation = (matrix: Float64Array, a: number, b: number) =>
    matrix[a * 3 + b]! / Math.sqrt(matrix[a * 4]! * matrix[b * 4]!);

  it('are positive definite, spread about what is believed, and the same on every run', () => {
    expect(drawn.length).toBe(12);
    for (const set of drawn) {
      const matrix = set.get('genet')!;
      expect(choleskyFactor([0, 1, 2].map((a) => [0, 1, 2].map((b) => matrix[a * 3 + b]!)))).not.toBeNull();
    }
    for (const {
      at: [i, j],
      fit,
    } of covariances.pairs) {
      const { terms, mean, root } = correlationBelief(fit, apart);
      const k = terms.indexOf('genet');
      const z = drawn.map((set) => Math.atanh(correlation(set.get('genet')!, i, j)));
      const average = z.reduce((sum, value) => sum + value, 0) / z.length;
      const spread = Math.sqrt(z.reduce((sum, value) => sum + (value - average) ** 2, 0) / z.length);
      const believed = Math.hypot(...root[k]!);
      // Twelve even strata of a normal have its mean within 0.1 of its spread; bending moves a few.
      expect(Math.abs(average - mean[k]!)).toBeLessThan(0.35 * believed);
      expect(spread / believed).toBeGreaterThan(0.7);
      expect(spread / believed).toBeLessThan(1.3);
    }
    expect(covarianceDraws(evaluations, covariances, apart)).toEqual(drawn);
  });

  it('keep together what goes together and apart what does not', () => {
    const signs = drawn.map((set) => correlation(set.get('genet')!, 0, 1));
    expect(signs.every((r) => r > 0.2)).toBe(true);
    const untied = drawn.map((set) => correlation(set.get('genet')!, 0, 2));
    expect(Math.min(...untied)).toBeLessThan(0);
    expect(Math.max(...untied)).toBeGreaterThan(0);
  });
});
