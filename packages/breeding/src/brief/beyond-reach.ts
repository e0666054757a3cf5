import type { TraitRule, Units } from '../facts/index.ts';
import { limitInWords } from './words.ts';

/** Ends of a line, in the trait's unit, days of the year for dates; an open end is infinite. */
interface Reach {
  readonly low: number;
  readonly high: number;
}

/** What the notes of a line go from and to, and how many there are. */
export interface NotedReach extends Reach {
  readonly notes: number;
}

/** What is asked of a trait, in words and on its line. */
export interface Asked extends Reach {
  readonly words: string;
  readonly trait: TraitRule;
}

/** Who meets what is asked, where that tells no plants apart; `all but an end`: one of its two ends asks nothing. */
export interface Beyond {
  readonly meets: 'none' | 'all' | 'all but an end';
  readonly why: string;
}

/**
 * Why every plant or none can meet what is asked, or why one end of it asks nothing, by the ends of the trait itself; null
 * where it tells plants apart. A value at an end of the trait is as far as it goes, so an end there asks nothing.
 */
export function beyondTrait(asked: Asked, units: Units): Beyond | null {
  const { words, trait } = asked;
  const ends = { low: trait.least ?? Number.NEGATIVE_INFINITY, high: trait.most ?? Number.POSITIVE_INFINITY };
  if (!Number.isFinite(ends.low) && !Number.isFinite(ends.high)) return null;
  const goes = `${trait.name} ${reachInWords(ends, trait, units)}`;
  const meets = whoMeets(asked, ends);
  switch (meets) {
    case 'none':
      return { meets, why: `No plant can meet “${words}”: ${goes}.` };
    case 'all':
      return { meets, why: `Every plant meets “${words}”, so it tells none apart: ${goes}.` };
  }
  const idle =
    Number.isFinite(asked.low) && asked.low <= ends.low
      ? 'lower'
      : Number.isFinite(asked.high) && asked.high >= ends.high
        ? 'upper'
        : null;
  return idle && { meets: 'all but an end', why: `The ${idle} end of “${words}” asks nothing: ${goes}.` };
}

/** The same by all that was noted so far: no bound to what may be, and yet mostly a slip or a limit of no use. */
export function beyondNotes(asked: Asked, noted: NotedReach, units: Units): Beyond | null {
  const { words, trait } = asked;
  const [low, high] = [limitInWords(noted.low, trait, units), limitInWords(noted.high, trait, units)];
  const goes =
    noted.notes === 1
      ? `its one note says ${low}`
      : `the ${noted.notes.toLocaleString('en-US')} notes of ${trait.name} go from ${low} to ${high}`;
  const meets = whoMeets(asked, noted);
  switch (meets) {
    case 'none':
      return { meets, why: `No plant was ever noted so: “${words}”, while ${goes}. Is it a slip?` };
    case 'all':
      return {
        meets,
        why: `Every plant was noted so: “${words}”, as ${goes}. It hardly tells plants apart.`,
      };
  }
  return null;
}

function whoMeets(asked: Reach, ends: Reach): 'none' | 'all' | 'some' {
  if (asked.low > ends.high || asked.high < ends.low) return 'none';
  return asked.low <= ends.low && asked.high >= ends.high ? 'all' : 'some';
}

function reachInWords({ low, high }: Reach, trait: TraitRule, units: Units): string {
  if (!Number.isFinite(high)) return `goes no lower than ${limitInWords(low, trait, units)}`;
  if (!Number.isFinite(low)) return `goes no higher than ${limitInWords(high, trait, units)}`;
  return `goes from ${limitInWords(low, trait, units)} to ${limitInWords(high, trait, units)}`;
}
