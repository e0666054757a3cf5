import type { PedigreeEntry } from '../../pedigree/index.ts';
import type { TraitNote } from '../trait-note.ts';
import { fullSibFamilies } from './candidates.ts';
import { type ConsideredTerm, takenInWords } from './considered.ts';
import { chooseAge } from './terms/age.ts';
import { chooseBed } from './terms/bed.ts';
import { counted } from './terms/classes.ts';
import { chooseKinship } from './terms/kinship.ts';
import { chooseObserver } from './terms/observer.ts';
import { choosePlant } from './terms/plant.ts';
import { choosePositions } from './terms/positions.ts';
import { chooseSeason, seasonsOf } from './terms/season.ts';
import { chooseSeasonInBed } from './terms/season-bed.ts';
import type { TermChoice } from './terms/term-choice.ts';

/** Terms chosen for a trait from what its notes hold, with the reasons in words. */
export interface ChosenModel {
  readonly fixed: readonly string[];
  readonly random: readonly string[];
  /** Class of each note for each column that a term names. */
  readonly columns: ReadonlyMap<string, readonly string[]>;
  readonly tookIntoAccount: readonly string[];
  readonly couldNotSeparate: readonly string[];
  /** All terms that were thought of, entered or not. */
  readonly considered: readonly ConsideredTerm[];
  /** Whether kin tell on a genet, what was taken of them, and why or why not. */
  readonly kinship: {
    readonly used: boolean;
    readonly took: string | null;
    readonly words: readonly string[];
  };
  /** Why nothing can be estimated at all; null where it can. */
  readonly impossible: string | null;
}

/**
 * Chooses the terms of the mixed model for one trait. Genets are random, so that few notes pull an estimate towards the
 * average (Henderson 1975); any other term enters only where the notes can tell it from the rest. With `additive` among the
 * columns, what genets hand on enters by their kinship, and `genet` is what each is beyond that.
 *
 * @param pedigree all genets with their parents as recorded; null where kinship is not to be used
 */
export function chooseModel(
  notes: readonly TraitNote[],
  pedigree: readonly PedigreeEntry[] | null = null,
): ChosenModel {
  const genets = notes.map(({ genet }) => genet);
  const perGenet = counted(genets);
  const singles = [...perGenet.values()].every((count) => count === 1);
  const kinship = chooseKinship(notes, pedigree);
  const impossible = whyImpossible(notes, perGenet, singles && kinship.term === null);
  const possible = impossible === null ? possibleTerms(notes, pedigree, kinship) : [];
  const choices = possible.map(([, choice]) => choice);
  const terms = choices.flatMap(({ term }) => term ?? []);
  const named = (kind: 'fixed' | 'random') =>
    terms.filter(({ name, effects }) => effects === kind && name !== 'additive').map(({ name }) => name);
  return {
    fixed: named('fixed'),
    random: [...(singles ? [] : ['genet']), ...named('random')],
    columns: new Map([
      ['genet', genets] as const,
      ...terms
        .filter(({ classes }) => classes.length > 0)
        .map(({ name, classes }) => [name, classes] as const),
    ]),
    tookIntoAccount: choices.flatMap(({ took }) => took ?? []),
    couldNotSeparate: impossible === null ? choices.flatMap(({ couldNot }) => couldNot) : [impossible],
    considered: possible.map(([term, choice]) => considered(term, choice)),
    kinship: {
      used: impossible === null && kinship.term !== null,
      took: kinship.took,
      words: kinship.took ? [takenInWords(kinship.took), ...kinship.couldNot] : kinship.couldNot,
    },
    impossible,
  };
}

function possibleTerms(
  notes: readonly TraitNote[],
  pedigree: readonly PedigreeEntry[] | null,
  kinship: TermChoice,
): [term: string, choice: TermChoice][] {
  const seasons = seasonsOf(notes);
  const season = chooseSeason(notes, seasons);
  const familyOf = kinship.term && pedigree ? fullSibFamilies(pedigree) : null;
  const bed = chooseBed(notes, seasons, familyOf);
  const { row, column } = choosePositions(notes);
  return [
    ['additive', kinship],
    ['season', season],
    ['bed', bed],
    ['season*bed', chooseSeasonInBed(notes, season, bed)],
    ['row', row],
    ['column', column],
    ['age', chooseAge(notes, seasons)],
    ['observer', chooseObserver(notes, seasons)],
    ['plant', choosePlant(notes)],
  ];
}

const termsInWords: Readonly<Record<string, string>> = {
  additive: 'What is handed on: parents, sibs, seedlings, clones',
  season: 'Season: year and site',
  bed: 'Bed',
  'season*bed': 'Bed in one season',
  row: 'Row in the bed',
  column: 'Column in the bed',
  age: 'Age of the plant',
  observer: 'Who took the note',
  plant: 'Single plant of a genet',
};

const considered = (term: string, { term: entering, took, couldNot }: TermChoice): ConsideredTerm => ({
  term,
  words: termsInWords[term] ?? term,
  entered: entering !== null,
  why: entering !== null && took ? takenInWords(took) : (couldNot[0] ?? 'The notes do not differ in it.'),
});

function whyImpossible(
  notes: readonly TraitNote[],
  perGenet: ReadonlyMap<string, number>,
  onlyChance: boolean,
): string | null {
  if (notes.length === 0) return 'There are no notes of this trait on plants or genets yet.';
  if (perGenet.size < 2) return 'All notes are on one genet; to compare, note at least one more.';
  if (new Set(notes.map(({ value }) => value)).size === 1)
    return `All ${notes.length} notes say the same; there is nothing to tell the genets apart by.`;
  if (onlyChance) {
    return 'Every genet has a single note, so a true difference cannot be told from chance. Note at least some of them a second time: another plant, or another year.';
  }
  return null;
}
