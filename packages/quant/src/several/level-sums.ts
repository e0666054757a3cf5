import type { Design } from '../mixed/design.ts';
import { ModelError } from '../mixed/model-error.ts';
import type { Random } from '../random/seeded-random.ts';
import { entryOffsets } from '../sparse/inverse-entries.ts';
import { solve, solveTransposed } from '../sparse/solve.ts';
import type { Layout } from './layout.ts';
import type { SharedTerm } from './shared-terms.ts';
import { lowerFactor } from './small-matrix.ts';
import type { CommonPart, SolvedParts } from './solved-parts.ts';

/** Sums of the effects of each level over several terms, for several traits. */
export interface LevelSums {
  readonly levels: readonly string[];
  /** Levels × traits, row by row. */
  readonly estimates: Float64Array;
  /** For each level traits × traits: covariances of the errors. */
  readonly covariances: Float64Array;
  /** A joint draw of all true sums given the rows and the covariance matrices, levels × traits. */
  draw(random: Random): Float64Array;
}

/** What a level's sum consists of. */
interface LevelParts {
  /** For each trait the unknowns that add up. */
  readonly unknowns: readonly (readonly number[])[];
  /** Terms that do not have the level. */
  readonly absent: readonly SharedTerm[];
}

/** Sums of levels; docs/methods/several-traits.md, line (9). */
export function levelSums(
  parts: SolvedParts,
  terms: readonly string[],
  common: CommonPart | null,
): LevelSums {
  const { layout, joint, whole } = parts;
  const n = layout.names.length;
  const among = terms.flatMap((name) => termNamed(layout, name, whole));
  const { levels, of } = levelsOf(among, n);
  const absentCovariances = new Map(among.map((term) => [term, scaledCovariance(parts, term)]));
  const covarianceOf = inverseEntries(parts, common);
  const estimates = new Float64Array(levels.length * n);
  const covariances = new Float64Array(levels.length * n * n);
  of.forEach(({ unknowns, absent }, i) => {
    for (let a = 0; a < n; a++) {
      const effect = unknowns[a]!.reduce((sum, at) => sum + joint.solution[at]!, 0);
      estimates[i * n + a] = layout.scales[a]! * effect + (common ? common.estimates[a]! : 0);
      for (let b = 0; b <= a; b++) {
        let error = covarianceOf(unknowns, a, b);
        for (const term of absent) error += absentCovariances.get(term)![a * n + b]!;
        error *= layout.scales[a]! * layout.scales[b]!;
        if (common) error += common.covariance[a * n + b]!;
        covariances[(i * n + a) * n + b] = error;
        covariances[(i * n + b) * n + a] = error;
      }
    }
  });
  return { levels, estimates, covariances, draw: (random) => drawSums(parts, of, common, random) };
}

/** The term, or none where its variance is 0 in all traits. */
function termNamed(layout: Layout, name: string, whole: readonly Design[]): SharedTerm[] {
  const term = layout.terms.find((candidate) => candidate.name === name);
  if (term) return [term];
  if (whole.some((design) => design.terms.some((candidate) => candidate.name === name))) return [];
  throw new ModelError(
    `no trait has a random term "${name}"`,
    `The terms are ${layout.terms.map((known) => `"${known.name}"`).join(', ')}`,
  );
}

/** All levels of the terms, those of the first term first, with the unknowns of each. */
function levelsOf(terms: readonly SharedTerm[], traits: number): { levels: string[]; of: LevelParts[] } {
  const places = terms.map((term) => new Map(term.levels.map((level, i) => [level, term.equations[i]!])));
  const levels = [...new Set(terms.flatMap((term) => term.levels))];
  const of = levels.map((level) => {
    const unknowns: number[][] = Array.from({ length: traits }, () => []);
    const absent: SharedTerm[] = [];
    terms.forEach((term, k) => {
      const equation = places[k]!.get(level);
      if (equation === undefined) {
        absent.push(term);
        return;
      }
      const first = term.offset + equation * term.traits.length;
      term.traits.forEach((t, a) => {
        unknowns[t]!.push(first + a);
      });
    });
    return { unknowns, absent };
  });
  return { levels, of };
}

/** A term's covariance matrix over all traits, zero for traits without it, on the scale of the layout. */
function scaledCovariance({ layout, joint }: SolvedParts, term: SharedTerm): Float64Array {
  const n = layout.names.length;
  const matrix = joint.matrices[layout.terms.indexOf(term)]!;
  const full = new Float64Array(n * n);
  term.traits.forEach((t, a) => {
    term.traits.forEach((s, b) => {
      full[t * n + s] = matrix[a * term.traits.length + b]!;
    });
  });
  return full;
}

/** Error covariance, without that of the common part alone, of the sums of traits a and b of a level. */
function inverseEntries(
  { joint, inverse, layout }: SolvedParts,
  common: CommonPart | null,
): (unknowns: LevelParts['unknowns'], a: number, b: number) => number {
  const offsetOf = entryOffsets(joint.factor.symbolic);
  const alone = (unknowns: LevelParts['unknowns'], a: number, b: number): number => {
    let sum = 0;
    for (const i of unknowns[a]!) {
      for (const j of unknowns[b]!) {
        const offset = offsetOf(i, j);
        if (offset < 0) return solved(unknowns, a, b);
        sum += inverse[offset]!;
      }
    }
    return sum;
  };
  const solved = (unknowns: LevelParts['unknowns'], a: number, b: number): number => {
    const vector = new Float64Array(layout.w.width);
    for (const j of unknowns[b]!) vector[j] = 1;
    solve(joint.factor, vector);
    return unknowns[a]!.reduce((sum, i) => sum + vector[i]!, 0);
  };
  return (unknowns, a, b) => {
    let sum = alone(unknowns, a, b);
    if (common) {
      for (const i of unknowns[a]!) sum += common.solved[b]![i]!;
      for (const j of unknowns[b]!) sum += common.solved[a]![j]!;
    }
    return sum;
  };
}

function drawSums(
  { layout, joint }: SolvedParts,
  of: readonly LevelParts[],
  common: CommonPart | null,
  random: Random,
): Float64Array {
  const n = layout.names.length;
  const drawn = Float64Array.from({ length: layout.w.width }, () => random.normal());
  solveTransposed(joint.factor, drawn);
  for (let i = 0; i < drawn.length; i++) drawn[i] = drawn[i]! + joint.solution[i]!;
  const shared = (common?.shares ?? []).map(
    ({ at, share, known }, a) =>
      known + layout.scales[a]! * at.reduce((sum, i, k) => sum + share[k]! * drawn[i]!, 0),
  );
  const roots = new Map(
    layout.terms.map((term, c) => [term, lowerFactor(joint.matrices[c]!, term.traits.length)!]),
  );
  const sums = new Float64Array(of.length * n);
  of.forEach(({ unknowns, absent }, i) => {
    for (let a = 0; a < n; a++) {
      const effect = unknowns[a]!.reduce((sum, at) => sum + drawn[at]!, 0);
      sums[i * n + a] = layout.scales[a]! * effect + (shared[a] ?? 0);
    }
    for (const term of absent) {
      const k = term.traits.length;
      const z = Float64Array.from({ length: k }, () => random.normal());
      const root = roots.get(term)!;
      term.traits.forEach((t, a) => {
        let effect = 0;
        for (let b = 0; b <= a; b++) effect += root[a * k + b]! * z[b]!;
        sums[i * n + t] = sums[i * n + t]! + layout.scales[t]! * effect;
      });
    }
  });
  return sums;
}
