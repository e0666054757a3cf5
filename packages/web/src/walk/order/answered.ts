import type { TraitShown } from '@keelrow/server/contract';
import type { Round } from '../rounds/round.ts';

/** What of a standing note decides whether a stop is done. */
export interface NoteSeen {
  readonly trait: string;
  readonly on: string;
  readonly state: string;
}

/**
 * Whether a trait of a plant is done on this walk: it was noted since the walk began, whatever the note says; a stage
 * also where the season has its day already. A plant found dead or missing on this walk is done as a whole.
 */
export function isAnswered(
  round: Pick<Round, 'since'>,
  trait: Pick<TraitShown, 'id' | 'sort'>,
  notes: readonly NoteSeen[],
): boolean {
  return notes.some((note) => {
    const now = note.on >= round.since;
    if (now && (note.state === 'dead' || note.state === 'missing')) return true;
    if (note.trait !== trait.id) return false;
    return (
      now ||
      (trait.sort === 'staged' && note.state === 'seen' && note.on.slice(0, 4) === round.since.slice(0, 4))
    );
  });
}

/** Whether a plant was found dead before this walk began: its latest note says so. Then nobody stops at it. */
export function wasDead(round: Pick<Round, 'since'>, notes: readonly NoteSeen[]): boolean {
  const before = notes.filter(({ on }) => on < round.since);
  const latest = before
    .map(({ on }) => on)
    .sort()
    .at(-1);
  return before.some(({ on, state }) => on === latest && state === 'dead');
}
