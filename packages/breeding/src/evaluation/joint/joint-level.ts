import type { WeightedEffect } from '@keelrow/quant';
import { linkedGroups } from '../choosing/terms/classes.ts';
import type { Evaluation } from '../evaluation.ts';

/** Years from which a plant counts as grown (common practice, no source: habit is judged from the fourth year). */
const grownFrom = 4;

/** What a true value is a value of, beside the genet: effects that are the same for all genets. */
export interface Level {
  readonly effects: readonly WeightedEffect[];
  /** A grown plant, not one of the average age of the notes. */
  readonly grown: boolean;
}

/**
 * A grown plant in an average season and bed: each class by its share of the notes, but of the ages only those from the
 * fourth year on, or the oldest one noted where none is so old. Where ages and seasons cannot be told apart, ages stay at
 * their shares too. Beds and people count by their shares where they are random effects as well: the average is over the
 * beds of this garden, not over all that could be (narrow inference; R. A. McLean, W. L. Sanders & W. W. Stroup 1991, The
 * American Statistician 45:54-64). Inbreeding is the genet's own and not in it.
 *
 * @param random names of the random terms that are in the sums
 */
export function grownLevel({ chosen, model }: Evaluation, random: readonly string[] = model.random): Level {
  const [ages, seasons] = [chosen.columns.get('age'), chosen.columns.get('season')];
  const byAge = model.fixed.includes('age') && ages !== undefined;
  const apart = byAge && seasons !== undefined && linkedGroups(ages, seasons).length > 1;
  const grown = byAge && !apart;
  const oldest = grown ? Math.max(...ages.map(yearsOf)) : 0;
  const counts = (term: string, level: string) =>
    !grown || term !== 'age' || yearsOf(level) >= Math.min(grownFrom, oldest);
  const effects: WeightedEffect[] = [{ term: 'intercept', level: null, weight: 1 }];
  for (const term of model.fixed) {
    const classes = chosen.columns.get(term);
    if (term === 'inbreeding' || !classes) continue;
    const counted = classes.filter((level) => counts(term, level));
    const shares = new Map<string, number>();
    for (const level of counted) shares.set(level, (shares.get(level) ?? 0) + 1 / counted.length);
    for (const [level, weight] of shares) effects.push({ term, level, weight });
  }
  for (const term of random) effects.push(...sharesOfSurroundings(term, chosen.columns));
  return { effects, grown };
}

const surroundings = new Set(['season', 'bed', 'observer']);

/** Each class of a random term of beds, seasons or people by its share of the notes; nothing for other terms. */
function sharesOfSurroundings(
  term: string,
  columns: ReadonlyMap<string, readonly string[]>,
): WeightedEffect[] {
  const parts = term.split('*');
  if (!parts.every((part) => surroundings.has(part) && columns.has(part))) return [];
  const [first, ...others] = parts.map((part) => columns.get(part)!);
  const counts = new Map<string, number>();
  for (const [row, one] of first!.entries()) {
    const level = [one, ...others.map((other) => other[row]!)].join('×');
    counts.set(level, (counts.get(level) ?? 0) + 1);
  }
  return [...counts].map(([level, number]) => ({ term, level, weight: number / first!.length }));
}

/** Years that a class of age begins with: 7 of `7 or more`; −∞ of unknown ages. */
const yearsOf = (age: string): number =>
  /^\d/.test(age) ? Number.parseInt(age, 10) : Number.NEGATIVE_INFINITY;
