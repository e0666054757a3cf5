import { colourDifference } from '../colour/index.ts';
import { halfOf80, type JointValue, type JointValues, shown } from '../evaluation/index.ts';
import type { Lab } from '../facts/index.ts';
import { type ClassCounts, classShares } from './class-chances.ts';
import type { HeldLimit } from './held-limits.ts';
import type { LimitMatch } from './match.ts';
import { amissInWords, dayInWords, rangeInWords, wantedInWords } from './words.ts';

/** What is likely of a genet in view of one limit, in numbers and words. */
export interface Likely extends Pick<LimitMatch, 'estimate' | 'low' | 'high' | 'colour' | 'class'> {
  readonly words: string;
  /** What is amiss if the limit is not met; null where the likely value lies within it. */
  readonly amiss: string | null;
}

const nothing = { estimate: null, low: null, high: null, colour: null, class: null };

/** distances: colour differences of the draws, for a limit on a colour. own: classes noted on the genet. */
export function likelyOf(
  held: HeldLimit,
  joint: JointValues,
  value: JointValue,
  distances: Float64Array | null,
  own: ClassCounts | undefined,
): Likely {
  const { limit, trait, units, unknown, axes, prior } = held;
  const wanted = `wanted ${wantedInWords(limit, trait, units)}`;
  if (unknown !== null) return { ...nothing, words: `not known, ${wanted}`, amiss: null };
  if (prior) {
    const [name, share] = classShares(prior, own)[0]!;
    return {
      ...nothing,
      class: name,
      words: `most likely ${name} (${Math.round(100 * share)} of 100 notes), ${wanted}`,
      amiss: limit.classes!.includes(name) ? null : 'otherwise',
    };
  }
  if (axes) {
    const [l, a, b] = axes.map((at) => value.mean[at]!) as [number, number, number];
    const colour = { l: Math.min(100, Math.max(0, l)), a, b };
    return {
      ...nothing,
      colour,
      ...colourInWords(limit.colour!, colour, limit.colourWithin!, distances!, wanted),
    };
  }
  return { ...nothing, ...intervalInWords(held, joint, value, wanted) };
}

function rangeOf(joint: JointValues, value: JointValue, at: number) {
  const [scale, mean] = [joint.scales[at]!, value.mean[at]!];
  const half = halfOf80 * Math.sqrt(value.covariance[at * value.mean.length + at]!);
  return {
    estimate: shown(scale, mean),
    low: shown(scale, mean - half),
    high: shown(scale, mean + half),
  };
}

function intervalInWords(
  { trait, units, intervals }: HeldLimit,
  joint: JointValues,
  value: JointValue,
  wanted: string,
): Omit<Likely, 'colour' | 'class'> {
  const [begin, end] = intervals;
  const range = rangeOf(joint, value, begin!.at);
  const side = (interval: typeof begin): 'below' | 'above' | null => {
    if (!interval) return null;
    const mean = value.mean[interval.at]!;
    return mean < interval.low ? 'below' : mean > interval.high ? 'above' : null;
  };
  const off = side(begin) ?? side(end);
  const amiss = off === null ? null : amissInWords(trait, off);
  if (end && end.at !== begin!.at) {
    const until = rangeOf(joint, value, end.at);
    return {
      ...range,
      words: `in flower about ${dayInWords(range.estimate)} to ${dayInWords(until.estimate)}, ${wanted}`,
      amiss,
    };
  }
  return {
    ...range,
    words: `${rangeInWords(trait, units, range.estimate, range.low, range.high)}, ${wanted}`,
    amiss,
  };
}

function colourInWords(wanted: Lab, likely: Lab, within: number, distances: Float64Array, words: string) {
  const sorted = distances.toSorted();
  const at = (share: number) => Math.round(sorted[Math.floor(share * (sorted.length - 1))]!);
  const difference = colourDifference(wanted, likely);
  const parts: [number, string, string][] = [
    [difference.lightness, 'too light', 'too dark'],
    [difference.chroma, 'too strong', 'too dull'],
    [difference.hue, 'of another hue', 'of another hue'],
  ];
  const [most, more, less] = parts.reduce((a, b) => (Math.abs(b[0]) > Math.abs(a[0]) ? b : a));
  return {
    words: `about ${at(0.5)} from it (${at(0.1)} to ${at(0.9)}), ${words}`,
    amiss: difference.total <= within ? null : most > 0 ? more : less,
  };
}
