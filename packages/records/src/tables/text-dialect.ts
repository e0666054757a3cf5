import type { Separator } from './table-types.ts';
import { type Dialect, recordsOfSample } from './text-records.ts';

export interface DetectedDialect extends Dialect {
  /** Share of the sample's rows that have as many cells as most of them have; 0 when no separator was found. */
  readonly consistency: number;
}

interface Judged extends DetectedDialect {
  readonly width: number;
  /** How many rows stand above the first one of full width. */
  readonly headline: number;
}

const separators: readonly Separator[] = ['\t', ';', ',', '|'];
const sampleRows = 200;
/** Below this share of equally wide rows, a sign that occurs in the text is no separator. */
const leastConsistency = 0.6;

/**
 * Finds the separator and the quotes of a text file: those by which most rows get the same number of cells.
 * @param sample the first part of the text; where it is not the whole, cut at a line's end
 * @param wanted the separator, if it was given
 */
export function detectDialect(sample: string, wanted?: Separator): DetectedDialect {
  const hint = /^"?sep=([,;\t|])"?\r?\n?/i.exec(sample)?.[1] as Separator | undefined;
  const tried = wanted ? [wanted] : hint ? [hint] : separators;
  const judgeAll = (rest: Omit<Dialect, 'separator'>) =>
    tried.map((separator) => judge(sample, { separator, ...rest }));
  const plain = judgeAll({ quote: '"', spacedQuotes: false });
  let chosen = bestOf(plain);
  if (/[,;\t|] +"/.test(sample)) {
    const spaced = bestOf(judgeAll({ quote: '"', spacedQuotes: true }));
    if (spaced.consistency > chosen.consistency) chosen = spaced;
  }
  if (sample.includes("'") && !sample.includes('"')) {
    const single = bestOf(judgeAll({ quote: "'", spacedQuotes: false }));
    if (singleQuotesQuote(sample, single, chosen)) chosen = single;
  }
  if (wanted || hint || chosen.consistency >= leastConsistency) return chosen;
  return (
    plain.find((judged) => isRaggedTable(sample, judged)) ?? { ...chosen, separator: ',', consistency: 0 }
  );
}

function bestOf(judged: readonly Judged[]): Judged {
  return judged.reduce((a, b) => (isBetter(b, a) ? b : a));
}

function judge(sample: string, dialect: Dialect): Judged {
  const { records, sound } = recordsOfSample(sample, dialect, sampleRows);
  const widths = records
    .filter((record) => record.some((text) => text.trim() !== ''))
    .map((record) => record.length);
  const width = mostFrequent(widths.filter((each) => each > 1));
  const headline = widths.indexOf(width);
  if (width === 0) return { ...dialect, consistency: 0, width: 1, headline: 0 };
  const below = widths.slice(headline);
  const equal = below.filter((each) => each === width).length;
  return { ...dialect, consistency: equal / (sound ? below.length : below.length + 1), width, headline };
}

function mostFrequent(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  let best = 0;
  for (const [value, count] of counts) if (count > (counts.get(best) ?? 0)) best = value;
  return best;
}

/** Of two that fit about equally well, the one that fits from an earlier row on, then the one with more columns. */
function isBetter(a: Judged, b: Judged): boolean {
  if (Math.abs(a.consistency - b.consistency) > 0.02) return a.consistency > b.consistency;
  if (a.headline !== b.headline) return a.headline < b.headline;
  return a.width > b.width;
}

/**
 * Whether single quotes are quotation marks of the file rather than part of its words: names of cultivars are written in
 * single quotes, and must keep them. They quote only if they also stand around the column names, or if they hold separators
 * together that would else tear the rows.
 */
function singleQuotesQuote(sample: string, single: Judged, plain: Judged): boolean {
  if (single.consistency < 0.95) return false;
  const first = recordsOfSample(sample, { ...single, quote: '"' }, 1).records[0] ?? [];
  const namesQuoted = first.length > 1 && first.every((text) => /^'.*'$/s.test(text));
  const holdsSeparators = /(^|[,;\t|\r\n])'[^'\r\n,;\t|]*[,;\t|][^'\r\n]*'(?=[,;\t|\r\n]|$)/.test(sample);
  return namesQuoted || (holdsSeparators && single.consistency > plain.consistency);
}

/** A table whose rows stop after their last filled cell: the first row is the widest, and holds short names. */
function isRaggedTable(sample: string, dialect: Judged): boolean {
  const { records } = recordsOfSample(sample, dialect, sampleRows);
  const [names, ...rest] = records.filter((record) => record.some((text) => text.trim() !== ''));
  if (!names || names.length < 3 || rest.length === 0) return false;
  const short = names.every(
    (text) => text.trim() !== '' && text.length <= 40 && text.trim().split(/\s+/).length <= 4,
  );
  return (
    short && new Set(names).size === names.length && rest.every((record) => record.length <= names.length)
  );
}
