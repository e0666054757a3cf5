import type { TraitNote } from '../../trait-note.ts';
import { genetsInSeveral, occurringWith } from './classes.ts';
import { nothing, onlySaying, type TermChoice } from './term-choice.ts';

/** Plants nearer than this across the direction of a row stand in one row (common practice, no source). */
const gapBetweenRows = 0.3;
const fewestPlants = 30;
const fewestRows = 4;
const fewestInARow = 3;
/** A note is of use here where most others have a place too. */
const mostUnplaced = 0.2;

/**
 * Rows (lines of one distance north of the bed's corner) and columns (of one distance east) of a bed as random effects, where
 * plants stand in lines: a wet end or a shaded edge then does not count for the genets on it.
 */
export function choosePositions(notes: readonly TraitNote[]): { row: TermChoice; column: TermChoice } {
  const placed = notes.filter(({ east, north }) => east != null && north != null);
  const none = { row: nothing, column: nothing };
  if (placed.length === 0) return none;
  if (placed.length < (1 - mostUnplaced) * notes.length) {
    return {
      ...none,
      row: onlySaying(
        `Only ${placed.length} of ${notes.length} notes are on plants whose place in the bed is known, so good and bad spots in a bed cannot be told.`,
      ),
    };
  }
  return {
    row: lines(notes, 'row', ({ north }) => north),
    column: lines(notes, 'column', ({ east }) => east),
  };
}

function lines(
  notes: readonly TraitNote[],
  name: 'row' | 'column',
  distance: (note: TraitNote) => number | null | undefined,
): TermChoice {
  const classes = lineOfEach(notes, name, distance);
  const plants = new Set(notes.map(({ plant, genet }) => plant ?? genet)).size;
  const perLine = occurringWith(
    classes,
    notes.map(({ plant, genet }) => plant ?? genet),
  );
  const filled = [...perLine.values()].filter((set) => set.size >= fewestInARow).length;
  if (plants < fewestPlants || filled < fewestRows || fewestInARow * perLine.size > plants) return nothing;
  const several = genetsInSeveral(notes, classes);
  if (several < 2)
    return onlySaying(
      `No genet stands in more than one ${name} of a bed, so a good ${name} cannot be told from good genets.`,
    );
  return {
    term: { name, effects: 'random', classes },
    took: `the ${name} in the bed (${perLine.size} ${name}s)`,
    couldNot: [],
  };
}

/** A line goes on while the next plant's distance is nearly that of the last. */
function lineOfEach(
  notes: readonly TraitNote[],
  name: string,
  distance: (note: TraitNote) => number | null | undefined,
): string[] {
  const placeOf = ({ site, bed }: TraitNote) => `${site ?? ''}/${bed ?? ''}`;
  const classes = notes.map(() => `no ${name}`);
  const byBed = new Map<string, { row: number; at: number }[]>();
  for (const [row, note] of notes.entries()) {
    const at = distance(note);
    if (at == null) continue;
    const list = byBed.get(placeOf(note));
    if (list) list.push({ row, at });
    else byBed.set(placeOf(note), [{ row, at }]);
  }
  for (const [bed, list] of byBed) {
    let line = 0;
    let last = -Infinity;
    for (const { row, at } of list.sort((a, b) => a.at - b.at)) {
      if (at - last > gapBetweenRows) line++;
      last = at;
      classes[row] = `${bed} ${name} ${line}`;
    }
  }
  return classes;
}
