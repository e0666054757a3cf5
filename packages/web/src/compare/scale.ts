/** A number line: where a value lies on it, from 0 to 1, and round values to write on it. */
export interface Line {
  readonly ticks: readonly number[];
  at(value: number): number;
}

/** A line that holds all values, with at most so many ticks at round distances that what is written at them stays apart. */
export function numberLine(values: readonly number[], most: number): Line {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (!(high > low)) return { ticks: Number.isFinite(low) ? [low] : [], at: () => 0.5 };
  const margin = (high - low) * 0.02;
  const [from, to] = [low - margin, high + margin];
  return { ticks: roundTicks(from, to, most), at: (value) => (value - from) / (to - from) };
}

/** The closest ticks at 1, 2 or 5 times a power of ten of which there are no more than `most`. */
function roundTicks(from: number, to: number, most: number): number[] {
  const power = 10 ** Math.floor(Math.log10((to - from) / most));
  for (const step of [1, 2, 5, 10, 20].map((factor) => factor * power)) {
    const first = Math.ceil(from / step);
    const count = Math.floor(to / step) - first + 1;
    // Twelve digits: 3 × 0.1 is written 0.3.
    if (count <= most)
      return Array.from({ length: count }, (_, index) => Number(((first + index) * step).toPrecision(12)));
  }
  return [];
}
