import type { ScaleName } from './report.ts';

/** The scale on which the sums for a trait are made, and the way back to its own unit. */
export interface Scale {
  readonly name: ScaleName;
  /** Why this one, in a full sentence. */
  readonly words: string;
  /** From the trait's unit to the scale. */
  readonly to: (value: number) => number;
  /** From the scale to the trait's unit. A median stays a median and an end of a range an end, as order is kept. */
  readonly from: (value: number) => number;
  /** No true value lies outside, in the trait's unit. */
  readonly limits: readonly [number, number];
}

export const asNoted = (words: string, limits: readonly [number, number] = [-Infinity, Infinity]): Scale => ({
  name: 'as noted',
  words,
  to: (value) => value,
  from: (value) => value,
  limits,
});

/** added: what is added to each value first (½ to counts of which some are 0: Anscombe 1948, Biometrika 35:246-254). */
export const squareRoot = (words: string, added = 0): Scale => ({
  name: 'square root',
  words,
  to: (value) => Math.sqrt(value + added),
  from: (value) => Math.max(0, value) ** 2 - added,
  limits: [0, Infinity],
});

export const logarithm = (words: string, added = 0): Scale => ({
  name: 'logarithm',
  words,
  to: (value) => Math.log(value + added),
  from: (value) => Math.exp(value) - added,
  limits: [0, Infinity],
});

/**
 * Log-odds of a percentage. 0 and 100 have none, so all are first drawn a little inwards: by half the smallest step that
 * the notes are written in (as by half a count for a share of counted things: Cox & Snell 1989, Analysis of Binary
 * Data, 2nd ed., section 2.1, the empirical logistic transform).
 * step: that smallest step, in per cent.
 */
export const logOdds = (words: string, step: number): Scale => ({
  name: 'log-odds',
  words,
  to: (value) => Math.log((value + step / 2) / (100 - value + step / 2)),
  from: (value) => {
    const share = 1 / (1 + Math.exp(-value));
    return share * (100 + step) - step / 2;
  },
  limits: [0, 100],
});

/** A value on the scale in the trait's unit, no further than a true value can lie. */
export function shown({ from, limits: [least, most] }: Scale, value: number): number {
  return Math.min(most, Math.max(least, from(value)));
}
