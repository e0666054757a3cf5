import type { Table } from '@keelrow/quant';
import type { PedigreeEntry } from '../../pedigree/index.ts';
import { entriesOfAncestry } from '../kin/kin-entries.ts';
import type { Scale } from '../scale.ts';
import type { TraitNote } from '../trait-note.ts';
import type { ChosenModel } from './choose-model.ts';
import { someGenets } from './some-genets.ts';
import { tableOf } from './table.ts';

/** The notes on which choices between models are made, and the pedigree of their genets alone. */
export interface ChoiceSample {
  readonly genets: ReadonlySet<string>;
  readonly table: Table;
  readonly entries: readonly PedigreeEntry[];
}

/** Choices are made on so many notes at most, by whole genets; a likelihood of more takes long and chooses the same. */
const mostNotes = 3000;

export function choiceSample(
  notes: readonly TraitNote[],
  chosen: ChosenModel,
  scale: Scale,
  entries: readonly PedigreeEntry[],
): ChoiceSample {
  const genets = someGenets(notes, mostNotes);
  const rows = notes.flatMap(({ genet }, row) => (genets.has(genet) ? [row] : []));
  const { columns } = tableOf(notes, chosen, scale);
  return {
    genets,
    table: {
      columns: new Map([...columns].map(([name, cells]) => [name, rows.map((row) => cells[row]!)])),
    },
    entries: entries.length > 0 ? entriesOfAncestry(entries, genets) : [],
  };
}

/** Terms of which the sample has more than one level. */
export const severalIn = ({ table }: ChoiceSample, terms: readonly string[]): string[] =>
  terms.filter((term) => term.split('*').every((name) => new Set(table.columns.get(name)).size > 1));
