import type { TraitNote } from '../../trait-note.ts';
import { counted } from './classes.ts';
import { nothing, type TermChoice } from './term-choice.ts';

const fewestCells = 8;
const fewestNotesInOne = 3;

/** A bed in one season: a late frost or a dry summer that one bed had worse than others. */
export function chooseSeasonInBed(
  notes: readonly TraitNote[],
  season: TermChoice,
  bed: TermChoice,
): TermChoice {
  if (!season.term || !bed.term) return nothing;
  const { classes: seasons } = season.term;
  const beds = bed.term.classes;
  const cells = counted(notes.map((_, row) => JSON.stringify([seasons[row], beds[row]])));
  const filled = [...cells.values()].filter((number) => number >= fewestNotesInOne).length;
  const separate = cells.size > new Set(seasons).size && cells.size > new Set(beds).size;
  if (filled < fewestCells || !separate) return nothing;
  return {
    term: { name: 'season*bed', effects: 'random', classes: [] },
    took: `the bed in each season (${cells.size} of them)`,
    couldNot: [],
  };
}
