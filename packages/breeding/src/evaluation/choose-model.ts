import { chooseAge } from './terms/age.ts';
import { chooseBed } from './terms/bed.ts';
import { counted } from './terms/classes.ts';
import { chooseObserver } from './terms/observer.ts';
import { choosePlant } from './terms/plant.ts';
import { chooseSeason, seasonsOf } from './terms/season.ts';
import type { TermChoice } from './terms/term-choice.ts';
import type { TraitNote } from './trait-note.ts';

/** A source of difference that was thought of. */
export interface ConsideredTerm {
  readonly term: string;
  readonly words: string;
  readonly entered: boolean;
  readonly why: string;
}

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
  /** Why nothing can be estimated at all; null where it can. */
  readonly impossible: string | null;
}

/**
 * Chooses the terms of the mixed model for one trait. Genets are random, so that few notes pull an estimate towards the
 * average (Henderson 1975); any other term enters only where the notes can tell it from the rest.
 */
export function chooseModel(notes: readonly TraitNote[]): ChosenModel {
  const genets = notes.map(({ genet }) => genet);
  const impossible = whyImpossible(notes, counted(genets));
  const seasons = seasonsOf(notes);
  const possible: readonly [term: string, choice: TermChoice][] =
    impossible === null
      ? [
          ['season', chooseSeason(notes, seasons)],
          ['bed', chooseBed(notes, seasons)],
          ['age', chooseAge(notes, seasons)],
          ['observer', chooseObserver(notes, seasons)],
          ['plant', choosePlant(notes)],
        ]
      : [];
  const choices = possible.map(([, choice]) => choice);
  const terms = choices.flatMap(({ term }) => term ?? []);
  const named = (kind: 'fixed' | 'random') =>
    terms.filter(({ effects }) => effects === kind).map(({ name }) => name);
  return {
    fixed: named('fixed'),
    random: ['genet', ...named('random')],
    columns: new Map([
      ['genet', genets] as const,
      ...terms.map(({ name, classes }) => [name, classes] as const),
    ]),
    tookIntoAccount: choices.flatMap(({ took }) => took ?? []),
    couldNotSeparate: impossible === null ? choices.flatMap(({ couldNot }) => couldNot) : [impossible],
    considered: possible.map(([term, choice]) => considered(term, choice)),
    impossible,
  };
}

const termsInWords: Readonly<Record<string, string>> = {
  season: 'Season: year and site',
  bed: 'Bed',
  age: 'Age of the plant',
  observer: 'Who took the note',
  plant: 'Single plant of a genet',
};

const considered = (term: string, { term: entering, took, couldNot }: TermChoice): ConsideredTerm => ({
  term,
  words: termsInWords[term] ?? term,
  entered: entering !== null,
  why:
    entering !== null && took
      ? `Taken into account: ${took}.`
      : (couldNot[0] ?? 'The notes do not differ in it.'),
});

function whyImpossible(notes: readonly TraitNote[], perGenet: ReadonlyMap<string, number>): string | null {
  if (notes.length === 0) return 'There are no notes of this trait yet.';
  if (perGenet.size < 2) return 'All notes are on one genet; to compare, note at least one more.';
  if (new Set(notes.map(({ value }) => value)).size === 1)
    return `All ${notes.length} notes say the same; there is nothing to tell the genets apart by.`;
  if ([...perGenet.values()].every((count) => count === 1)) {
    return 'Every genet has a single note, so a true difference cannot be told from chance. Note at least some of them a second time: another plant, or another year.';
  }
  return null;
}
