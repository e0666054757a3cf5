import type { TraitNote } from '@keelrow/breeding/evaluation';
import { seededRandom } from '@keelrow/quant';

type Row = Partial<Omit<TraitNote, 'note'>> & { readonly genet: string };

/** Notes from what matters in a layout; the rest is the same for all: one site, no bed, no age, no person. */
export function notesOf(rows: readonly Row[], seed = 1): TraitNote[] {
  const random = seededRandom(seed);
  const quality = new Map<string, number>();
  return rows.map((row, index) => {
    if (!quality.has(row.genet)) quality.set(row.genet, 4 * random.normal());
    return {
      note: `n${index}`,
      value: Math.round(10 * (50 + quality.get(row.genet)! + 2 * random.normal())) / 10,
      plant: `${row.genet}/1`,
      year: 2030,
      site: 'home',
      bed: null,
      age: null,
      observer: null,
      ...row,
    };
  });
}

export const genets = (count: number): string[] =>
  Array.from({ length: count }, (_, index) => `G${index + 1}`);

/** Every combination of the classes given. */
export function crossed<A, B>(as: readonly A[], bs: readonly B[]): [A, B][] {
  return as.flatMap((a) => bs.map((b): [A, B] => [a, b]));
}
