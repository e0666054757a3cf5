import type { Round, Step, Stop } from './round.ts';
import { stepsKept } from './round.ts';

const isAt = (a: Stop, b: Stop): boolean => a.plant === b.plant && a.trait === b.trait;

/** What stands in the box of a stop. */
export const typedAt = (round: Round, stop: Stop): string =>
  round.drafts.find((draft) => isAt(draft, stop))?.typed ?? '';

/** Keeps what stands in the box of a stop, whatever is looked at next; an empty text clears it. */
export function typing(round: Round, { plant, trait }: Stop, typed: string): Round {
  const others = round.drafts.filter((draft) => !isAt(draft, { plant, trait }));
  return { ...round, drafts: typed === '' ? others : [...others, { plant, trait, typed }] };
}

/** Leads to a stop; null is the end of the walk. */
export const standingAt = (round: Round, at: Stop | null): Round => ({
  ...round,
  at,
  ended: at === null,
});

/** After an entering: it can be undone, its box is empty, and the walk stands at the next stop. */
export function entered(round: Round, step: Step, next: Stop | null): Round {
  const { drafts } = typing(round, step, '');
  return standingAt({ ...round, drafts, steps: [...round.steps, step].slice(-stepsKept) }, next);
}

/** After the last step was taken back: the walk stands where it was entered, and its box holds what it held. */
export function stepBack(round: Round): Round {
  const step = round.steps.at(-1);
  if (!step) return round;
  const { plant, trait, typed } = step;
  return standingAt({ ...typing(round, step, typed), steps: round.steps.slice(0, -1) }, { plant, trait });
}

/** The same walk begun anew. */
export const againFrom = (round: Round, today: string): Round => ({
  ...round,
  since: today,
  at: null,
  ended: false,
  backTo: null,
  yesterdayOf: null,
});

/** The day that notes are of: today, or the day before where that was chosen today. */
export const noteDay = (round: Round, today: string, yesterday: string): string =>
  round.yesterdayOf === today ? yesterday : today;

/** Chooses yesterday or today for the notes to come; notes of yesterday then count for this walk. */
export const dayChosen = (round: Round, today: string, yesterday: string | null): Round => ({
  ...round,
  yesterdayOf: yesterday === null ? null : today,
  since: yesterday !== null && yesterday < round.since ? yesterday : round.since,
});
