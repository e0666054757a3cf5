import type { Table } from '@keelrow/quant';
import type { Scale } from '../scale.ts';
import type { TraitNote } from '../trait-note.ts';
import type { ChosenModel } from './choose-model.ts';

/** Column of the values in the tables that models are fitted to. */
export const response = 'value';

/** The table that a model is fitted to: a row for each note, its value on the scale of the sums. */
export function tableOf(notes: readonly TraitNote[], chosen: ChosenModel, { to }: Scale): Table {
  return { columns: new Map([...chosen.columns, [response, notes.map(({ value }) => String(to(value)))]]) };
}
