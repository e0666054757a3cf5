import { type AnyRow, type AnyValue, kindOf, type TraitRule } from '@keelrow/breeding/facts';
import type { Cell, OpenedTable, TableRow } from '../tables/index.ts';
import { isId } from '../writing/references.ts';
import { type CellReading, type Conventions, readFieldCell, readValueCell } from './cells.ts';
import { type ImportPlan, type ImportProblem, plantColumns } from './plan.ts';

/** A record read from a row (and, among notes, from one column of values), with what could not be read. */
export interface Interpreted {
  readonly row: number;
  readonly column: string | null;
  readonly record: AnyRow;
  /** Columns by field, to name the place of what is found wrong later. */
  readonly columns: ReadonlyMap<string, string>;
  readonly problems: readonly ImportProblem[];
  /** Among notes: what the row says of the plant itself. */
  readonly plantSaid?: PlantSaid;
}

export interface PlantSaid {
  readonly genet: string | null;
  readonly place: string | null;
}

const states = ['seen', 'not yet', 'dead', 'missing', 'skipped'];

/** The state that a cell names in place of a value, such as `not yet`; undefined where it names none. */
export const stateIn = (text: string): string | undefined =>
  states.find((word) => word === text.trim().toLowerCase());

/** Turns the rows of one file into records by its plan. */
export class Interpreter {
  readonly #plan: ImportPlan;
  readonly #table: OpenedTable;
  readonly #conventions: Conventions;
  readonly #traits: ReadonlyMap<string, TraitRule>;
  readonly #columns: Map<string, string>;
  readonly #constants: Readonly<Record<string, AnyValue>>;
  readonly #constantProblems: ImportProblem[] = [];

  constructor(
    plan: ImportPlan,
    table: OpenedTable,
    conventions: Conventions,
    traits: ReadonlyMap<string, TraitRule>,
  ) {
    this.#plan = plan;
    this.#table = table;
    this.#conventions = conventions;
    this.#traits = traits;
    this.#columns = new Map(
      plan.columns.flatMap((use, index): [string, string][] => {
        const header = table.headers[index] ?? `column ${index + 1}`;
        if (!use) return [];
        if ('field' in use) return [[use.field, header]];
        return 'year' in use ? [['on', header]] : [];
      }),
    );
    this.#constants = this.#readConstants();
  }

  #readConstants(): Record<string, AnyValue> {
    const constants: Record<string, AnyValue> = {};
    for (const [name, text] of Object.entries(this.#plan.constants ?? {})) {
      const field = kindOf(this.#plan.kind).fields[name];
      const reading: CellReading = field
        ? field.type === 'value'
          ? { value: text }
          : readFieldCell(field, { text }, undefined, { ...this.#conventions, dateSystem: undefined })
        : { problem: `there is no field “${name}”` };
      if ('problem' in reading) this.#constantProblems.push({ row: null, column: name, ...reading });
      else constants[name] = reading.value;
    }
    return constants;
  }

  /** The records that one row of the file makes: one, or among notes one for each column of values that says something. */
  read({ row, cells }: TableRow): Interpreted[] {
    // What is wrong with a value given for all rows is said once, with the first of them.
    const problems: ImportProblem[] = this.#constantProblems.splice(0);
    const record: Record<string, AnyValue> = { ...this.#constants };
    const { fields } = kindOf(this.#plan.kind);
    let valueCell: { cell: Cell; unit: string | undefined; header: string } | null = null;
    let unit: string | undefined;
    for (const [index, use] of this.#plan.columns.entries()) {
      const cell = cells[index];
      if (!use || !cell || 'trait' in use) continue;
      const header = this.#table.headers[index] ?? `column ${index + 1}`;
      if ('year' in use) {
        this.#readYear(cell, row, header, record, problems);
        continue;
      }
      if (use.field === 'id') {
        this.#readId(cell, row, header, record, problems);
        continue;
      }
      if (use.field === 'unit' && this.#plan.kind === 'notes') {
        unit = cell.text.trim() || undefined;
        continue;
      }
      const field = fields[use.field];
      if (!field) continue;
      if (field.type === 'value') {
        valueCell = { cell, unit: use.unit, header };
        continue;
      }
      const reading = readFieldCell(field, cell, use.unit, this.#conventions);
      if ('problem' in reading)
        problems.push({ row, column: header, problem: reading.problem, remedy: reading.remedy });
      else if (reading.value !== null) record[use.field] = reading.value;
    }
    const rule =
      this.#traits.get(String(record.trait ?? '')) ??
      this.#traits.get(String(record.trait ?? '').toLowerCase());
    if (this.#plan.kind === 'notes' && rule) record.trait = rule.code;
    const plantSaid = this.#plantSaid(cells);
    const whole = { row, columns: this.#columns, ...(plantSaid ? { plantSaid } : {}) };
    const wide = this.#plan.columns.flatMap((use, index) => (use && 'trait' in use ? [{ use, index }] : []));
    if (wide.length > 0) {
      return this.#readWide(wide, cells, record, problems, row).map((read) => ({ ...whole, ...read }));
    }
    if (valueCell) {
      const { cell, header } = valueCell;
      const reading = this.#readValue(String(record.trait ?? ''), cell, unit ?? valueCell.unit);
      if ('problem' in reading)
        problems.push({ row, column: header, problem: reading.problem, remedy: reading.remedy });
      else if (reading.value !== null) record.value = reading.value;
    }
    return [{ ...whole, column: null, record, problems }];
  }

  #readWide(
    wide: readonly { use: { trait: string; unit?: string | undefined }; index: number }[],
    cells: readonly Cell[],
    record: AnyRow,
    problems: readonly ImportProblem[],
    row: number,
  ): Interpreted[] {
    const made: Interpreted[] = [];
    for (const { use, index } of wide) {
      const cell = cells[index];
      if (!cell || cell.text.trim() === '') continue;
      const header = this.#table.headers[index] ?? `column ${index + 1}`;
      const state = stateIn(cell.text);
      const reading: CellReading = state ? { value: null } : this.#readValue(use.trait, cell, use.unit);
      const own: ImportProblem[] =
        'problem' in reading
          ? [{ row, column: header, problem: reading.problem, remedy: reading.remedy }]
          : [];
      const value = 'problem' in reading ? null : reading.value;
      if (value === null && !state && own.length === 0) continue;
      made.push({
        row,
        column: header,
        record: { ...record, trait: use.trait, ...(state ? { state } : { value }) },
        columns: new Map([...this.#columns, ['value', header], ['trait', header]]),
        problems: own,
      });
    }
    // What is wrong with the row as a whole is said once, not for each of its values.
    if (problems.length > 0) {
      const all = [...problems, ...made.flatMap((value) => value.problems)];
      return [{ row, column: null, record, columns: this.#columns, problems: all }];
    }
    return made;
  }

  #plantSaid(cells: readonly Cell[]): PlantSaid | null {
    const said = (field: string): string | null => {
      const index = this.#plan.columns.findIndex(
        (use) => use !== null && 'field' in use && use.field === field,
      );
      return cells[index]?.text.trim() || null;
    };
    const [genet, place] = [said(plantColumns.genet), said(plantColumns.place)];
    return genet || place ? { genet, place } : null;
  }

  #readValue(trait: string, cell: Cell, unit: string | undefined): CellReading {
    const rule = this.#traits.get(trait);
    // An unknown trait is told as such when the record's references are checked.
    return rule ? readValueCell(rule, cell, unit, this.#conventions) : { value: cell.text.trim() || null };
  }

  #readId(
    cell: Cell,
    row: number,
    column: string,
    record: Record<string, AnyValue>,
    problems: ImportProblem[],
  ): void {
    const id = cell.text.trim().toLowerCase();
    if (id === '') return;
    if (isId(id)) record.id = id;
    else {
      problems.push({
        row,
        column,
        problem: `“${cell.text.trim()}” is not an id as Keelrow makes them (a UUID)`,
        remedy: 'leave the column out, or say which field it holds; ids are then made',
      });
    }
  }

  #readYear(
    cell: Cell,
    row: number,
    header: string,
    record: Record<string, AnyValue>,
    problems: ImportProblem[],
  ): void {
    const text = cell.text.trim();
    if (text === '') return;
    if (!/^(1[6-9]|2[0-3])\d\d(\.0)?$/.test(text)) {
      problems.push({
        row,
        column: header,
        problem: `“${text}” is not a year`,
        remedy: 'write it with four digits',
      });
      return;
    }
    record.on = `${text.slice(0, 4)}-${this.#plan.yearDay ?? '07-01'}`;
  }
}
