import type { TraitNote } from '../../trait-note.ts';
import { count, counted, linkedGroups, occurringWith } from './classes.ts';
import { fewestNotesOfAClass, nothing, onlySaying, type TermChoice } from './term-choice.ts';

const oldestClass = 7;

/** Age of the plant in whole years as fixed classes, so that young seedlings are comparable with old standards. */
export function chooseAge(notes: readonly TraitNote[], seasons: readonly string[]): TermChoice {
  const unknown = notes.filter(({ age }) => age === null).length;
  if (unknown === notes.length) {
    return onlySaying(
      'The age of the plants is not known (no planting dates), so young plants are compared with old ones as if alike.',
    );
  }
  const ages = notes.map(({ age }) => ageClass(age));
  const counts = counted(ages);
  if (counts.size < 2) return nothing;
  if (
    new Set(seasons).size > 1 &&
    [...occurringWith(seasons, ages).values()].every((set) => set.size === 1)
  ) {
    return onlySaying(
      'In each season all plants were of one age, so what age did cannot be told from what the season did; both go into the season.',
    );
  }
  if ([...counts.values()].filter((number) => number >= fewestNotesOfAClass).length < 2)
    return onlySaying('There are too few notes on plants of different ages to tell what age does.');
  const apart =
    linkedGroups(ages, seasons).length > 1
      ? [
          'Some ages were never noted in the same season as the others, so what age did between them cannot be told from what the seasons did; both go into the season.',
        ]
      : [];
  const aside = unknown > 0 ? ` (${count(unknown, 'note is', 'notes are')} on plants of unknown age)` : '';
  return {
    term: { name: 'age', effects: 'fixed', classes: ages },
    took: `the age of the plant, in years${aside}`,
    couldNot: apart,
  };
}

function ageClass(age: number | null): string {
  if (age === null) return 'unknown';
  return age >= oldestClass ? `${oldestClass} or more` : String(Math.max(0, Math.round(age)));
}
