import type { TraitNote } from '../../trait-note.ts';
import { genetsInSeveral } from './classes.ts';
import { nothing, onlySaying, type TermChoice } from './term-choice.ts';

const fewestClones = 2;

/**
 * The single plant as a random effect within its genet: what all notes on one plant share beyond its genet, such as its
 * place and its start in life.
 */
export function choosePlant(notes: readonly TraitNote[]): TermChoice {
  const plants = notes.map(({ plant, genet }) => plant ?? `genet ${genet}`);
  if (notes.every(({ plant }) => plant === null)) return sayingNoPlants(notes);
  // One note on each plant: what is the plant's and what is the note's are one, and the residual holds both.
  if (new Set(plants).size === notes.length) return nothing;
  const several = genetsInSeveral(notes, plants);
  if (several < fewestClones) {
    return onlySaying(
      `${several === 0 ? 'Each genet is' : 'All genets but one are'} a single plant, so what the genet is cannot be told from the luck of its place. A second plant elsewhere would tell.`,
    );
  }
  return {
    term: { name: 'plant', effects: 'random', classes: plants },
    took: `the single plant (${several} genets have several)`,
    couldNot: [],
  };
}

/** Notes on genets as a whole: fine where a genet was grown at several sites, as in trials. */
function sayingNoPlants(notes: readonly TraitNote[]): TermChoice {
  const places = notes.map(({ site, bed }) => `${site ?? ''} ${bed ?? ''}`);
  if (genetsInSeveral(notes, places) >= fewestClones) return nothing;
  return onlySaying(
    'The notes name genets and no single plants, so what the genet is cannot be told from the luck of the plant that was noted.',
  );
}
