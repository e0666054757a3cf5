import type { TraitNote } from '../../trait-note.ts';
import { genetsInSeveral, occurringWith } from './classes.ts';
import { nothing, onlySaying, type TermChoice } from './term-choice.ts';

/** From so many beds on, how much beds differ can be estimated as a variance. */
const bedsForVariance = 4;
const fewestTies = 2;

/**
 * A few beds of one site are fixed classes; more are drawn towards their average. They enter only where genets stand in
 * several, or with kinship full sibs do, as a good bed cannot be told from good genets otherwise.
 *
 * @param familyOf the family of full sibs of a genet, where kinship is used
 */
export function chooseBed(
  notes: readonly TraitNote[],
  seasons: readonly string[],
  familyOf: ((genet: string) => string) | null = null,
): TermChoice {
  const beds = notes.map(({ bed }) => (bed === null ? 'no bed' : `bed ${bed}`));
  const number = new Set(notes.map(({ bed }) => bed).filter((bed) => bed !== null)).size;
  if (number < 2) return nothing;
  if ([...occurringWith(seasons, beds).values()].every((set) => set.size === 1))
    return onlySaying(
      'In each season all notes come from one bed, so what the bed did cannot be told from what the season did; both go into the season.',
    );
  const moved = genetsInSeveral(notes, beds);
  const families = familyOf
    ? genetsInSeveral(
        notes.map((note) => ({ ...note, genet: familyOf(note.genet) })),
        beds,
      )
    : 0;
  if (Math.max(moved, families) < fewestTies) {
    if (familyOf)
      return onlySaying(
        'Each family stands in a bed of its own, so a good bed cannot be told from a good family, nor a poor one from a poor. Plant a standard in each bed, or sibs in several.',
      );
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
    took: `the bed (${number} beds; ${moved >= fewestTies ? `${moved} genets stand` : `sibs of ${families} families stand`} in more than one)`,
    couldNot: [],
  };
}
