import type { TraitNote } from '../../trait-note.ts';
import { genetsInSeveral, occurringWith } from './classes.ts';
import { nothing, onlySaying, type TermChoice } from './term-choice.ts';

/** From so many beds on, how much beds differ can be estimated as a variance. */
const bedsForVariance = 4;
const fewestTies = 2;

/**
 * A few beds of one site are fixed classes; more are drawn towards their average. Where genets stand in several beds, or
 * with kinship full sibs do, these tell the beds. Where none does, beds enter all the same: left out, all that a bed does
 * would count as what its genets are, with ranges far too narrow (genets nested in beds; Searle, Casella & McCulloch
 * 1992, Variance Components, section 3.6). They are left out only where each genet has a bed to itself.
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
  const tied = Math.max(moved, families) >= fewestTies;
  if (!tied && bedsOfSeveral(notes, beds) < fewestTies)
    return onlySaying(
      'Each genet stands in a bed of its own, so a good bed cannot be told from a good genet. Plant a standard in each bed.',
    );
  const sites = new Set(notes.map(({ site }) => site)).size;
  if (number < bedsForVariance && sites > 1) {
    return onlySaying(
      `There are notes from ${number} beds only, at ${sites} sites: too few to say how much beds differ. Differences between beds count as chance.`,
    );
  }
  return {
    term: { name: 'bed', effects: number < bedsForVariance ? 'fixed' : 'random', classes: beds },
    took: `the bed (${number} beds; ${tiedBy(moved, families)})`,
    couldNot: tied ? [] : [hardlyTold(moved, families, familyOf !== null)],
  };
}

/** Number of beds with several genets in them. */
const bedsOfSeveral = (notes: readonly TraitNote[], beds: readonly string[]): number =>
  [
    ...occurringWith(
      beds,
      notes.map(({ genet }) => genet),
    ).values(),
  ].filter((genets) => genets.size > 1).length;

function tiedBy(moved: number, families: number): string {
  if (moved >= fewestTies) return `${moved} genets stand in more than one`;
  if (families >= fewestTies) return `sibs of ${families} families stand in more than one`;
  return 'by how much genets of one bed are more alike than genets of different beds';
}

function hardlyTold(moved: number, families: number, byKin: boolean): string {
  const [none, mended] = byKin
    ? [
        families === 0 ? 'Each family stands in a bed of its own' : 'Only one family stands in several beds',
        'Plant a standard in each bed, or sibs in several.',
      ]
    : [
        `${moved === 0 ? 'No genet stands' : 'Only one genet stands'} in more than one bed`,
        'Plant a standard in each bed.',
      ];
  const good = byKin ? 'a good family' : 'good genets';
  return `${none}, so a good bed can hardly be told from ${good}: genets of one bed are well compared, those of different beds are not, and their ranges are wide for it. ${mended}`;
}
