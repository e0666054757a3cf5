import { evaluate, type JointLine, jointValues, type TraitNote } from '@keelrow/breeding/evaluation';
import type { PedigreeEntry } from '@keelrow/breeding/pedigree';
import { FitCancelledError, seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { denseInverse } from '../../../quant/test/sparse/dense-reference.ts';
import { jointCovariances } from '../../src/evaluation/joint/joint-covariances.ts';
import { grownLevel } from '../../src/evaluation/joint/joint-level.ts';
import { jointTables } from '../../src/evaluation/joint/joint-tables.ts';
import { singleLine } from '../../src/evaluation/joint/single-line.ts';
import { valuesAtCovariances } from '../../src/evaluation/joint/values-at-covariances.ts';
import { valueParts } from '../../src/evaluation/value-parts.ts';

const founders = ['F1', 'F2', 'F3', 'F4', 'F5', 'F6'];

/** Six unrelated founders, each crossed with the next, six seedlings a cross; two plants each, in two years. */
function garden(seed: string) {
  const random = seededRandom(seed);
  const pedigree: PedigreeEntry[] = founders.map((genet) => ({
    genet,
    seedParents: [],
    pollenParents: [],
    cloneOf: null,
    group: null,
  }));
  const worth = new Map(founders.map((genet) => [genet, [random.normal(), random.normal()] as const]));
  for (const [i, seedParent] of founders.entries()) {
    const pollenParent = founders[(i + 1) % founders.length]!;
    for (let k = 0; k < 6; k++) {
      const genet = `${seedParent}x${pollenParent}-${k}`;
      const half = (t: 0 | 1) =>
        (worth.get(seedParent)![t] + worth.get(pollenParent)![t]) / 2 + Math.SQRT1_2 * random.normal();
      worth.set(genet, [half(0), half(1)]);
      pedigree.push({
        genet,
        seedParents: [{ genet: seedParent, chance: 1 }],
        pollenParents: [{ genet: pollenParent, chance: 1 }],
        cloneOf: null,
        group: null,
      });
    }
  }
  // True values of the two traits correlate by 0.8, and so do the errors of one plant in one year, by 0.6.
  const genets = [...worth.keys()].filter((genet) => !founders.slice(0, 3).includes(genet));
  const notes: [TraitNote[], TraitNote[]] = [[], []];
  for (const genet of genets) {
    const [a, b] = worth.get(genet)!;
    for (const plant of [1, 2]) {
      for (const year of [2030, 2031]) {
        const note = {
          genet,
          plant: `${genet}/${plant}`,
          year,
          site: 'home',
          bed: null,
          age: null,
          observer: null,
        };
        const [e, f] = [random.normal(), random.normal()];
        const season = year === 2030 ? 0 : 3;
        notes[0].push({ ...note, note: `a${notes[0].length}`, value: 50 + season + 5 * a + 3 * e });
        // Half of the seedlings were never noted for the second trait.
        if (genets.indexOf(genet) % 2 === 0)
          notes[1].push({
            ...note,
            note: `b${notes[1].length}`,
            value: 20 - season + 2 * (0.8 * a + 0.6 * b) + 0.6 * e + 0.8 * f,
          });
      }
    }
  }
  return { pedigree, genets, notes };
}

function linesOf({ pedigree, notes }: ReturnType<typeof garden>): JointLine[] {
  return notes.map((own, t) => {
    const evaluation = evaluate(own, pedigree);
    if (evaluation.fitted === null) throw new Error(evaluation.chosen.impossible ?? '');
    return { key: `line ${t}`, name: `Trait ${t}`, evaluation, joint: true };
  });
}

/** The line with its variances taken as known. */
const atBest = (line: JointLine): JointLine => ({
  ...line,
  evaluation: { ...line.evaluation, fits: [{ chance: 1, fitted: line.evaluation.fitted }] },
});

/**
 * Level + additive + genet of each genet on both lines with their error covariances, by dense mixed model equations
 * (source: Henderson & Quaas 1976, Journal of Animal Science 43:1188-1197, several traits): for k'b + m'u the estimate is
 * [k m]' s and the error covariance [k m]' C⁻¹ [k m], the whole of C inverted by elimination.
 */
function byDefinition(
  { notes }: ReturnType<typeof garden>,
  lines: readonly JointLine[],
  matrices: ReadonlyMap<string, Float64Array>,
) {
  const kinship = lines[0]!.evaluation.kin!.kinship;
  const termLevels: [string, readonly string[], (note: TraitNote) => string][] = [
    ['additive', kinship.genets, ({ genet }) => genet],
    ['genet', [...new Set(notes.flat().map(({ genet }) => genet))], ({ genet }) => genet],
    ['plant', [...new Set(notes.flat().map(({ plant }) => plant!))], ({ plant }) => plant!],
  ];
  const has = (term: string, t: number) => (matrices.get(term)?.[t * 3] ?? 0) > 0;
  const unknowns: string[] = [0, 1].flatMap((t) => [`mean ${t}`, `2031 ${t}`]);
  for (const [term, levels] of termLevels)
    for (const level of levels)
      for (const t of [0, 1]) if (has(term, t)) unknowns.push(`${term} ${level} ${t}`);
  const place = new Map(unknowns.map((name, at) => [name, at]));
  const size = unknowns.length;
  const c = unknowns.map(() => new Array<number>(size).fill(0));
  const right = new Array<number>(size).fill(0);
  const residual = matrices.get('residual')!;
  const determinant = residual[0]! * residual[3]! - residual[1]! * residual[2]!;
  const both = [residual[3]! / determinant, -residual[1]! / determinant, residual[0]! / determinant];
  const other = new Map(notes[1].map((note) => [`${note.plant} ${note.year}`, note]));
  const columnsOf = (note: TraitNote, t: number) =>
    [
      `mean ${t}`,
      ...(note.year === 2031 ? [`2031 ${t}`] : []),
      ...termLevels.map(([term, , level]) => `${term} ${level(note)} ${t}`),
    ].flatMap((name) => place.get(name) ?? []);
  const add = (a: number[], b: number[], precision: number, y: number) => {
    for (const i of a) {
      for (const j of b) c[i]![j] = c[i]![j]! + precision;
      right[i] = right[i]! + precision * y;
    }
  };
  for (const note of notes[0]) {
    const second = other.get(`${note.plant} ${note.year}`);
    const own = columnsOf(note, 0);
    if (!second) {
      add(own, own, 1 / residual[0]!, note.value);
      continue;
    }
    const theirs = columnsOf(second, 1);
    add(own, own, both[0]!, note.value);
    add(own, theirs, both[1]!, second.value);
    add(theirs, own, both[1]!, note.value);
    add(theirs, theirs, both[2]!, second.value);
  }
  for (const [term, levels] of termLevels) {
    const traits = [0, 1].filter((t) => has(term, t));
    if (traits.length === 0) continue;
    const g = denseInverse(traits.map((a) => traits.map((b) => matrices.get(term)![a * 2 + b]!))).inverse;
    const k = denseInverse(
      levels.map((a) =>
        levels.map((b) => (term === 'additive' ? kinship.relationship(a, b) : a === b ? 1 : 0)),
      ),
    ).inverse;
    for (const [i, a] of levels.entries())
      for (const [j, b] of levels.entries())
        for (const [p, t] of traits.entries())
          for (const [q, u] of traits.entries()) {
            const [row, column] = [place.get(`${term} ${a} ${t}`)!, place.get(`${term} ${b} ${u}`)!];
            c[row]![column] = c[row]![column]! + k[i]![j]! * g[p]![q]!;
          }
  }
  const inverse = denseInverse(c).inverse;
  const solution = inverse.map((row) => row.reduce((sum, value, j) => sum + value * right[j]!, 0));
  const shares = [0, 1].map((t) => notes[t]!.filter(({ year }) => year === 2031).length / notes[t]!.length);
  return (genet: string) => {
    const sums = [0, 1].map((t) => {
      const weights = new Array<number>(size).fill(0);
      weights[place.get(`mean ${t}`)!] = 1;
      weights[place.get(`2031 ${t}`)!] = shares[t]!;
      for (const term of ['additive', 'genet']) {
        const at = place.get(`${term} ${genet} ${t}`);
        if (at !== undefined) weights[at] = 1;
      }
      return weights;
    });
    const times = (weights: number[]) =>
      inverse.map((row) => row.reduce((sum, value, j) => sum + value * weights[j]!, 0));
    const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, x, i) => sum + x * b[i]!, 0);
    return {
      mean: sums.map((weights) => dot(weights, solution)),
      covariance: sums.flatMap((a) => sums.map((b) => dot(a, times(b)))),
    };
  };
}

describe('true values on several lines', () => {
  it('equal the dense solution of all traits together, level and error covariances included', () => {
    const grown = garden('joint');
    const lines = linesOf(grown);
    const { pairs, whole, apart } = jointTables(lines, grown.pedigree, grown.genets);
    const { matrices } = jointCovariances(pairs, apart, {});
    const expected = byDefinition(grown, lines, matrices);
    const values = valuesAtCovariances(
      lines.map(({ evaluation }) => evaluation),
      whole,
      matrices,
      {},
    );
    for (const genet of grown.genets) {
      const [own, by] = [values(genet), expected(genet)];
      own.mean.forEach((value, t) => {
        expect(Math.abs(value - by.mean[t]!), `${genet} ${t}`).toBeLessThan(1e-7);
      });
      own.covariance.forEach((value, e) => {
        expect(Math.abs(value - by.covariance[e]!), `${genet} ${e}`).toBeLessThan(1e-7);
      });
    }
  });

  it('lie about the estimates as far as the covariances that may be true let them', () => {
    const grown = garden('joint');
    const lines = linesOf(grown);
    const { pairs, whole, apart } = jointTables(lines, grown.pedigree, grown.genets);
    const { matrices } = jointCovariances(pairs, apart, {});
    const evaluations = lines.map(({ evaluation }) => evaluation);
    const best = valuesAtCovariances(evaluations, whole, matrices, {});
    const joint = jointValues(lines, grown.pedigree, grown.genets);
    // Total variance (source: definition): of errors at each of the covariances, and of how far the estimate is off there.
    const square = (of: (value: { mean: Float64Array; covariance: Float64Array }) => number, genet: string) =>
      joint.of(genet).each.reduce((sum, value) => sum + of(value), 0) / joint.of(genet).each.length;
    let [doubtful, known] = [0, 0];
    for (const genet of grown.genets) {
      const { mean, covariance, each } = joint.of(genet);
      expect(each.length).toBe(12);
      expect([...mean]).toEqual([...best(genet).mean]);
      const crossed = square(
        (at) => at.covariance[1]! + (at.mean[0]! - mean[0]!) * (at.mean[1]! - mean[1]!),
        genet,
      );
      expect(covariance[1]).toBeCloseTo(crossed, 10);
      const own = square((at) => at.covariance[3]! + (at.mean[1]! - mean[1]!) ** 2, genet);
      expect(covariance[3]).toBeCloseTo(own, 10);
      doubtful += covariance[3]!;
      known += best(genet).covariance[3]!;
    }
    expect(doubtful).toBeGreaterThan(known);
  });

  it('of one line alone are those of sums in its fit', () => {
    const [line] = linesOf(garden('joint'));
    const { evaluation } = atBest(line!);
    const value = singleLine(evaluation);
    const { effects: level } = grownLevel(evaluation);
    const parts = valueParts(evaluation);
    for (const genet of evaluation.notedGenets) {
      const { estimate, se } = evaluation.fitted.combine([
        ...level,
        ...parts.flatMap(({ effectOf }) => effectOf(genet, 1) ?? []),
      ]);
      expect(value(genet).estimate).toBeCloseTo(estimate, 8);
      expect(value(genet).variance).toBeCloseTo(se ** 2, 8);
    }
  });

  it('find the correlation that the garden was drawn with', () => {
    const grown = garden('joint');
    const { words } = jointValues(linesOf(grown), grown.pedigree, grown.genets);
    const [, told] = /Trait 0 and Trait 1 \((0\.\d+)\)/.exec(words.join(' '))!;
    // 39 genets tell a correlation of 0.8 to within about ±0.2 (twice (1 − 0.64)/√38, the large-sample standard error).
    expect(Math.abs(Number(told) - 0.8)).toBeLessThan(0.2);
  });

  it('learn of a trait that was not noted from one that was', () => {
    const grown = garden('joint');
    const lines = linesOf(grown);
    const joint = jointValues(lines, grown.pedigree, grown.genets);
    const alone = jointValues(
      lines.map((line) => ({ ...line, joint: false })),
      grown.pedigree,
      grown.genets,
    );
    const untold = grown.genets.filter((_, i) => i % 2 === 1);
    const error = (values: typeof joint) =>
      untold.reduce((sum, genet) => sum + values.of(genet).covariance[3]!, 0) / untold.length;
    expect(error(joint)).toBeLessThan(0.8 * error(alone));
    expect(alone.of(untold[0]!).covariance[1]).toBe(0);
  });

  it('give a stranger the level of the garden with the spread of its genets', () => {
    const grown = garden('joint');
    const lines = linesOf(grown);
    const joint = jointValues(lines, grown.pedigree, grown.genets);
    const stranger = joint.of('stranger');
    for (const t of [0, 1]) {
      const noted = grown.genets.map((genet) => joint.of(genet).covariance[3 * t]!);
      expect(stranger.covariance[3 * t]).toBeGreaterThan(Math.max(...noted));
    }
    expect(stranger.mean[0]).toBeCloseTo(51.5, -1);
  });

  it('stop when asked, between two fits too', () => {
    const grown = garden('joint');
    const lines = linesOf(grown);
    expect(() => jointValues(lines, grown.pedigree, grown.genets, { isCancelled: () => true })).toThrow(
      FitCancelledError,
    );
  });
});
