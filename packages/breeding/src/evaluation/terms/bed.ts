import type { TraitNote } from '../trait-note.ts';
import { genetsInSeveral, occurringWith } from './classes.ts';
import { nothing, onlySaying, type TermChoice } from './term-choice.ts';

/** From so many beds on, how much beds differ can be estimated as a variance. */
const bedsForVariance = 4;
const fewestTies = 2;

/**
 * A few beds of one site are fixed classes; more are drawn towards their average. They enter only where genets stand in
 * several, as a good bed cannot be told from good genets otherwise.
 */
export function chooseBed(notes: readonly TraitNote[], seasons: readonly string[]): TermChoice {
  const beds = notes.map(({ bed }) => (bed === null ? 'no bed' : `bed ${bed}`));
  const number = new Set(notes.map(({ bed }) => bed).filter((bed) => bed !== null)).size;
  if (number < 2) return nothing;
  if ([...occurringWith(seasons, beds).values()].every((set) => set.size === 1))
    return onlySaying(
      'In each season all notes come from one bed, so what the bed did cannot be told from what the season did; both go into the season.',
    );
  const moved = genetsInSeveral(notes, beds);
  if (moved < fewestTies) {
    return onlySaying(
      `${moved === 0 ? 'No genet stands' : 'Only one genet stands'} in more than one bed, so a good bed cannot be told from good genets. Plant a standard in each bed.`,
    );
  }
  const sites = new Set(notes.map(({ site }) => site)).size;
  if (number < bedsForVariance && sites > 1) {
    return onlySaying(
      `There are notes from ${number} beds only, at ${sites} sites: too few to say how much beds differ. Differences between beds count as chance.`,
    );
  }
  return {
    term: { name: 'bed', effects: number < bedsForVariance ? 'fixed' : 'random', classes: beds },
    took: `the bed (${number} beds; ${moved} genets stand in more than one)`,
    couldNot: [],
  };
}
