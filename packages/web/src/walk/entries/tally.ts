/** A tally stands in the box as its number; an empty box is an empty tally. */
const countOf = (typed: string): number => (/^\d+$/.test(typed) ? Number(typed) : 0);

/** One more, or so many; never below none. */
export const tallied = (typed: string, by: number): string => String(Math.max(0, countOf(typed) + by));

/** Strokes as they are drawn on paper: gates of five, and the strokes of the gate begun. */
export function gates(typed: string): { readonly full: number; readonly strokes: number } {
  const count = countOf(typed);
  return { full: Math.floor(count / 5), strokes: count % 5 };
}
