/** A number line: where a value lies on it, from 0 to 1, and round values to write on it. */
export interface Line {
  readonly ticks: readonly number[];
  at(value: number): number;
}

/** A line that holds all values, with at most `most` + 1 ticks at round distances, so that what is written at them stays apart. */
export function numberLine(values: readonly number[], most: number): Line {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  if (!(high > low)) return { ticks: Number.isFinite(low) ? [low] : [], at: () => 0.5 };
  const margin = (high - low) * 0.02;
  const [from, to] = [low - margin, high + margin];
  const step = roundStep((to - from) / most);
  const first = Math.ceil(from / step);
  const ticks = Array.from(
    { length: Math.floor(to / step) - first + 1 },
    (_, index) => (first + index) * step,
  );
  return {
    // Twelve digits: 3 × 0.1 is written 0.3.
    ticks: ticks.map((tick) => Number(tick.toPrecision(12))),
    at: (value) => (value - from) / (to - from),
  };
}

/** The shortest of 1, 2 and 5 times a power of ten that is no shorter than a length. */
function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return [1, 2, 5].map((factor) => factor * power).find((step) => step >= least * (1 - 1e-9)) ?? 10 * power;
}
