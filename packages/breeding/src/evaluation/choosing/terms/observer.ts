import type { TraitNote } from '../../trait-note.ts';
import { count, counted, linkedGroups, occurringWith } from './classes.ts';
import { fewestNotesOfAClass, nothing, onlySaying, type TermChoice } from './term-choice.ts';

/** From so many people on, how much people differ can be estimated as a variance. */
const peopleForVariance = 5;

/** Who took the note, where several people did and their habits can be told from the seasons. */
export function chooseObserver(notes: readonly TraitNote[], seasons: readonly string[]): TermChoice {
  const named = counted(notes.flatMap(({ observer }) => observer ?? []));
  if (named.size < 2) return nothing;
  if ([...named.values()].filter((number) => number >= fewestNotesOfAClass).length < 2) {
    return onlySaying(
      'Only one person took more than a couple of notes, so habits of noting cannot be told.',
    );
  }
  const observers = notes.map(({ observer }) => (observer === null ? 'nobody named' : `by ${observer}`));
  if (
    new Set(seasons).size > 1 &&
    [...occurringWith(seasons, observers).values()].every((set) => set.size === 1)
  ) {
    return onlySaying(
      'In each season one person took all notes, so habits of noting cannot be told from what the season did; both go into the season.',
    );
  }
  const unnamed = notes.filter(({ observer }) => observer === null).length;
  const apart =
    linkedGroups(observers, seasons).length > 1
      ? [
          'Some people never took notes in the same season as the others, so their habits cannot be told from what the seasons did; both go into the season.',
        ]
      : [];
  return {
    term: {
      name: 'observer',
      effects: named.size >= peopleForVariance ? 'random' : 'fixed',
      classes: observers,
    },
    took: `who took the note (${named.size} people${unnamed > 0 ? `; ${count(unnamed, 'note names', 'notes name')} nobody` : ''})`,
    couldNot: apart,
  };
}
