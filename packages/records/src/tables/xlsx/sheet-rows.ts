import { parseAddress } from '../cell-address.ts';
import type { FindingLog } from '../findings.ts';
import { limits } from '../limits.ts';
import { type RawRow, refuseTooWide } from '../raw-row.ts';
import { TableError } from '../table-error.ts';
import type { Cell } from '../table-types.ts';
import { type Archive, damaged } from './archive.ts';
import { type CellContext, cellValue } from './cell-value.ts';
import { attribute, type XmlHandlers, xmlEvents } from './xml-events.ts';

const emptyCell: Cell = { text: '' };

/** The rows of a sheet that hold anything, read as they come: ECMA-376 part 1, 18.3.1.73. */
export async function* sheetRows(
  archive: Archive,
  part: string,
  context: CellContext,
  findings: FindingLog,
): AsyncGenerator<RawRow> {
  const reader = new RowReader(archive.name, context, findings);
  for await (const _ of xmlEvents(archive.name, archive.read(part, limits.sheetBytes), reader)) {
    yield* reader.taken();
  }
}

class RowReader implements XmlHandlers {
  readonly #name: string;
  readonly #context: CellContext;
  readonly #findings: FindingLog;
  #done: RawRow[] = [];
  #row = 0;
  #column = 0;
  #cells: Cell[] = [];
  #type = '';
  #style = 0;
  #value = '';
  #inline = '';
  #hasFormula = false;
  #phonetic = false;
  #target: 'value' | 'inline' | undefined;

  constructor(name: string, context: CellContext, findings: FindingLog) {
    this.#name = name;
    this.#context = context;
    this.#findings = findings;
  }

  /** The rows that were finished since the last call. */
  taken(): RawRow[] {
    const done = this.#done;
    this.#done = [];
    return done;
  }

  open(name: string, attributes: Readonly<Record<string, string>>): void {
    if (name === 'row') this.#openRow(attributes);
    else if (name === 'c') this.#openCell(attributes);
    else if (name === 'v') this.#target = 'value';
    else if (name === 't' && !this.#phonetic) this.#target = 'inline';
    else if (name === 'f') this.#hasFormula = true;
    else if (name === 'rPh') this.#phonetic = true;
  }

  text(piece: string): void {
    if (this.#target === 'value') this.#value += piece;
    else if (this.#target === 'inline') this.#inline += piece;
  }

  close(name: string): void {
    if (name === 'v' || name === 't') this.#target = undefined;
    else if (name === 'rPh') this.#phonetic = false;
    else if (name === 'c') this.#closeCell();
    else if (name === 'row' && this.#cells.length > 0)
      this.#done.push({ row: this.#row, cells: this.#cells });
  }

  #openRow(attributes: Readonly<Record<string, string>>): void {
    const row = Number(attribute(attributes, 'r') ?? this.#row + 1);
    if (!Number.isInteger(row) || row <= this.#row)
      throw damaged(this.#name, `row ${this.#row + 1} is out of order`);
    if (row > limits.sheetRows) {
      throw new TableError(
        'too-large',
        `A sheet of ${this.#name} has more than ${limits.sheetRows} rows.`,
        'Split the table.',
      );
    }
    this.#row = row;
    this.#column = 0;
    this.#cells = [];
    if (/^(1|true)$/.test(attribute(attributes, 'hidden') ?? '')) {
      this.#findings.add('hidden-rows', 'Rows that are hidden in the spreadsheet are read like the others.', {
        row,
      });
    }
  }

  #openCell(attributes: Readonly<Record<string, string>>): void {
    const address = attribute(attributes, 'r');
    const column = address === undefined ? this.#column + 1 : parseAddress(address)?.column;
    if (column === undefined || column <= this.#column)
      throw damaged(this.#name, `a cell of row ${this.#row} is out of order`);
    this.#column = column;
    this.#type = attribute(attributes, 't') ?? 'n';
    this.#style = Number(attribute(attributes, 's') ?? 0);
    this.#value = '';
    this.#inline = '';
    this.#hasFormula = false;
  }

  #closeCell(): void {
    const place = { row: this.#row, column: this.#column };
    if (this.#type === 'e') {
      const shown = /^#[A-Z0-9/!?_]{1,20}$/.test(this.#value) ? this.#value : '#ERROR!';
      this.#findings.add('error-cell', `Cells that show the error ${shown} are taken as empty.`, place);
    }
    if (this.#hasFormula && this.#value === '' && this.#inline === '' && this.#type !== 'str') {
      const message =
        'Cells hold a formula without its result and are taken as empty; open and save the file in a spreadsheet program.';
      this.#findings.add('formula-without-value', message, place);
    }
    const stored = { type: this.#type, style: this.#style, value: this.#value, inline: this.#inline };
    const cell = cellValue(stored, this.#context);
    if (cell.text === '') return;
    // Empty cells far out, left by a format given to whole rows, do no harm.
    refuseTooWide(this.#name, this.#row, this.#column);
    while (this.#cells.length < this.#column - 1) this.#cells.push(emptyCell);
    this.#cells.push(cell);
  }
}
