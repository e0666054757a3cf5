import type { PairCompared } from '@keelrow/server/contract';

/**
 * Half the width of a range that holds the truth with a chance of 80%, in standard errors: the 90% point of the
 * standard normal distribution, 1.2816 (any table of it).
 */
export const eightyPercent = 1.2816;

/** How sure a chance between 0.5 and 1 makes one, in everyday words. */
function surenessWords(chance: number): string {
  if (chance >= 0.975) return 'It is nearly sure';
  if (chance >= 0.9) return 'It is very likely';
  if (chance >= 0.75) return 'It is likely';
  if (chance >= 0.6) return 'It is a little more likely than not';
  return 'The notes cannot tell yet';
}

/** Per cent without pretending to be certain: never 0% or 100%. */
export function chanceShown(chance: number): string {
  if (chance > 0.99) return 'more than 99%';
  if (chance < 0.01) return 'less than 1%';
  return `${Math.round(chance * 100)}%`;
}

export interface PairNames {
  readonly a: string;
  readonly b: string;
  readonly trait: string;
  readonly wanted: string | null;
  readonly isDay: boolean;
}

/** Which of two is better, in one plain sentence, by the direction that the trait is wanted in. */
export function pairSentence(pair: PairCompared, names: PairNames): string {
  const better = names.wanted === 'less' ? 1 - pair.chanceAMore : pair.chanceAMore;
  const [front, other, chance] = better >= 0.5 ? [names.a, names.b, better] : [names.b, names.a, 1 - better];
  const is = isWhat(names);
  const sure = surenessWords(chance);
  return chance < 0.6
    ? `${sure} which of the two truly ${is}: the chance that it is ${front} is only ${chanceShown(chance)}.`
    : `${sure} that ${front} truly ${is} than ${other}: the chance is ${chanceShown(chance)}.`;
}

/** What the one in front is, against the other: `has more spike length`, `is earlier in first flower`. */
function isWhat({ trait, wanted, isDay }: PairNames): string {
  const subject = trait.charAt(0).toLowerCase() + trait.slice(1);
  if (isDay) return `is ${wanted === 'less' ? 'earlier' : 'later'} in ${subject}`;
  return wanted === 'less' ? `has less ${subject}` : `has more ${subject}`;
}
