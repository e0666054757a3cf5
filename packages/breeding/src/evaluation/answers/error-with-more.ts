import type { WeightedEffect } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import { valueParts } from '../value-parts.ts';
import { invertDense } from './invert-dense.ts';
import { type Further, type NoteToCome, notesToCome } from './more-notes.ts';

/** A sum of effects: those that the fit has, and what is new, by name with its variance. */
interface Sum {
  readonly known: readonly WeightedEffect[];
  readonly fresh: ReadonlyMap<string, { readonly weight: number; readonly variance: number }>;
}

/** A note to come as such a sum, and its new fixed classes. */
interface ComingNote extends Sum {
  readonly freshFixed: readonly string[];
}

/**
 * The standard error of the difference of two genets, on the scale of the sums, if both were noted further: what solving
 * the equations anew with these notes and the variances held would give, without solving them. Errors of prediction do not
 * depend on the values noted: with S the covariance of the notes to come given those there are, X their new fixed classes
 * and c their covariance with the error of the difference, its variance falls by c'Pc, P = S⁻¹ − S⁻¹X(X'S⁻¹X)⁻¹X'S⁻¹ (the
 * update of a normal distribution by further observations: Searle, Casella & McCulloch 1992, section 7.2).
 *
 * @returns a function of what more is noted; null where neither genet has notes to repeat
 */
export function errorWithMore(
  evaluation: Evaluation,
  a: string,
  b: string,
): (more: Further) => number | null {
  const { fitted } = evaluation;
  const difference = differenceSum(evaluation, a, b);
  const residual = fitted.result.variances.find(({ term }) => term === 'residual')!.estimate;
  const levels = levelsOf(evaluation);
  const found = new Map<string, number>();
  const known = (one: Sum, other: Sum): number => {
    const key = [one.known, other.known]
      .map((effects) => JSON.stringify(effects))
      .sort()
      .join();
    const before = found.get(key);
    if (before !== undefined) return before;
    const covariance = fitted.errorCovariance(one.known, other.known);
    found.set(key, covariance);
    return covariance;
  };
  const covarianceOf = (one: Sum, other: Sum): number => {
    let sum = known(one, other);
    for (const [name, { weight, variance }] of one.fresh)
      sum += weight * variance * (other.fresh.get(name)?.weight ?? 0);
    return sum;
  };
  return (more) => {
    const come = [...notesToCome(evaluation, a, b, more), ...notesToCome(evaluation, b, a, more)].map(
      (note) => comingNote(evaluation, levels, note),
    );
    if (come.length === 0) return null;
    const s = Float64Array.from({ length: come.length ** 2 }, (_, k) => {
      const [i, j] = [Math.floor(k / come.length), k % come.length];
      return covarianceOf(come[i]!, come[j]!) + (i === j ? residual : 0);
    });
    const c = come.map((note) => covarianceOf(note, difference));
    const classes = [...new Set(come.flatMap(({ freshFixed }) => freshFixed))];
    const x = classes.map((name) => come.map(({ freshFixed }) => (freshFixed.includes(name) ? 1 : 0)));
    const told = explained(s, x, c);
    return Math.sqrt(Math.max(0, covarianceOf(difference, difference) - told));
  };
}

/** c'Pc. */
function explained(s: Float64Array, x: readonly (readonly number[])[], c: readonly number[]): number {
  const size = c.length;
  const inverse = invertDense(s, size, size)!;
  const form = (one: readonly number[], other: readonly number[]) => {
    let sum = 0;
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) sum += one[i]! * inverse[i * size + j]! * other[j]!;
    return sum;
  };
  const left = x.map((column) => form(column, c));
  const among = invertDense(
    Float64Array.from(x.flatMap((one) => x.map((other) => form(one, other)))),
    x.length,
    x.length,
  )!;
  let lost = 0;
  for (let i = 0; i < x.length; i++)
    for (let j = 0; j < x.length; j++) lost += left[i]! * among[i * x.length + j]! * left[j]!;
  return form(c, c) - lost;
}

function differenceSum(evaluation: Evaluation, a: string, b: string): Sum {
  const { depression, familyOf } = evaluation;
  const known: WeightedEffect[] = [];
  const fresh = new Map<string, { weight: number; variance: number }>();
  for (const part of valueParts(evaluation)) {
    for (const [genet, weight] of [
      [a, 1],
      [b, -1],
    ] as const) {
      const effect = part.effectOf(genet, weight);
      if (effect) known.push(effect);
      else {
        const level = part.term === 'family' && familyOf ? familyOf(genet) : genet;
        fresh.set(nameOf(part.term, level), { weight, variance: part.own(genet) });
      }
    }
  }
  if (depression) {
    const more = depression.inbreeding(a) - depression.inbreeding(b);
    known.push({ term: 'inbreeding', level: null, weight: more });
  }
  return { known, fresh };
}

const nameOf = (term: string, level: string): string => JSON.stringify([term, level]);

const levelIn = (term: string, classOf: (column: string) => string): string =>
  term.split('*').map(classOf).join('×');

function levelsOf({ model, chosen, notes }: Evaluation): Map<string, Set<string>> {
  const terms = [...model.fixed, ...model.random];
  return new Map(
    terms.map((term) => [
      term,
      new Set(notes.map((_, row) => levelIn(term, (column) => chosen.columns.get(column)![row]!))),
    ]),
  );
}

function comingNote(
  { model, fitted }: Evaluation,
  levels: ReadonlyMap<string, ReadonlySet<string>>,
  note: NoteToCome,
): ComingNote {
  const known: WeightedEffect[] = [{ term: 'intercept', level: null, weight: 1 }];
  const fresh = new Map<string, { weight: number; variance: number }>();
  const freshFixed: string[] = [];
  if (model.additive) known.push({ term: 'additive', level: note('additive'), weight: 1 });
  for (const term of model.fixed) {
    const level = levelIn(term, note);
    if (model.numeric?.includes(term)) known.push({ term, level: null, weight: Number(level) });
    else if (levels.get(term)!.has(level)) known.push({ term, level, weight: 1 });
    else freshFixed.push(nameOf(term, level));
  }
  for (const term of model.random) {
    const level = levelIn(term, note);
    const variance = fitted.result.variances.find((one) => one.term === term)?.estimate ?? 0;
    if (levels.get(term)!.has(level)) known.push({ term, level, weight: 1 });
    else fresh.set(nameOf(term, level), { weight: 1, variance });
  }
  return { known, fresh, freshFixed };
}
