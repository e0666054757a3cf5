import {
  type AnyValue,
  convert,
  convertible,
  type Field,
  keptAs,
  readLab,
  readParents,
  shownUnit,
  type TraitRule,
  unitNamed,
} from '@keelrow/breeding/facts';
import {
  type Cell,
  type DateOrder,
  type DecimalMark,
  isMissingMark,
  readDate,
  readNumber,
  readYesNo,
} from '../tables/index.ts';

/** How the cells of one file are written. */
export interface Conventions {
  readonly dateOrder: DateOrder | undefined;
  readonly decimal: DecimalMark | undefined;
  readonly dateSystem: 1900 | 1904 | undefined;
}

/** What a cell says, or what is wrong with it. An empty cell says null: nothing. */
export type CellReading =
  | { readonly value: AnyValue }
  | { readonly problem: string; readonly remedy?: string };

const nothing: CellReading = { value: null };

/** Reads a cell for a field. unit: the unit in which the column's numbers are written; converted to the field's own. */
export function readFieldCell(
  field: Field,
  cell: Cell,
  unit: string | undefined,
  conventions: Conventions,
): CellReading {
  const text = cell.text.trim();
  if (text === '') return nothing;
  switch (field.type) {
    case 'number':
    case 'integer':
      return isMissingMark(text) ? nothing : readQuantity(cell, field.unit ?? null, unit, conventions);
    case 'date':
      return isMissingMark(text) ? nothing : readDay(cell, conventions);
    case 'yes-no': {
      const reading = readYesNo(text);
      return reading.ok ? { value: reading.value } : { problem: reading.problem };
    }
    case 'choice':
      return { value: wordAmong(field.choices, text) };
    case 'time':
      return { value: /^\d:/.test(text) ? `0${text}`.slice(0, 5) : text.slice(0, 5) };
    case 'parents': {
      const parents = readParents(text, field.side);
      return 'problem' in parents ? { problem: parents.problem } : { value: parents };
    }
    case 'list':
      return {
        value: text
          .split('|')
          .map((word) => word.trim())
          .filter((word) => word !== ''),
      };
    case 'colour': {
      const lab = readLab(text);
      return lab
        ? { value: lab }
        : { problem: `“${text}” is not a colour`, remedy: 'write L a b, such as 45 5 -22' };
    }
    case 'text':
      return { value: cell.text.trim() };
    default:
      return { value: text };
  }
}

/** Reads the value of a note for its trait. */
export function readValueCell(
  trait: TraitRule,
  cell: Cell,
  unit: string | undefined,
  conventions: Conventions,
): CellReading {
  const text = cell.text.trim();
  if (text === '') return nothing;
  switch (keptAs[trait.sort]) {
    case 'number':
      return isMissingMark(text) ? nothing : readQuantity(cell, trait.unit ?? null, unit, conventions);
    case 'date':
      return isMissingMark(text) ? nothing : readDay(cell, conventions);
    case 'class':
      return { value: wordAmong(trait.classes ?? [], text) };
    case 'colour': {
      const lab = readLab(text);
      return lab
        ? { value: lab }
        : { problem: `“${text}” is not a colour`, remedy: 'write L a b, such as 45 5 -22' };
    }
    case 'text':
      return { value: text };
  }
}

/** The word that was meant: the very same one if it is there, else one that differs in capitals or hyphens alone. */
const wordAmong = (words: readonly string[], text: string): string =>
  words.includes(text) ? text : (words.find((word) => sameWord(word, text)) ?? text);

const sameWord = (a: string, b: string): boolean =>
  a.toLowerCase().replace(/[\s_-]+/g, ' ') === b.toLowerCase().replace(/[\s_-]+/g, ' ');

function readDay(cell: Cell, { dateOrder, dateSystem }: Conventions): CellReading {
  const reading = readDate(cell, { order: dateOrder, dateSystem });
  return reading.ok ? { value: reading.value } : { problem: reading.problem };
}

function readQuantity(
  cell: Cell,
  own: string | null,
  columnUnit: string | undefined,
  { decimal }: Conventions,
): CellReading {
  const reading =
    cell.number === undefined
      ? readNumber(cell.text, { decimal })
      : { ok: true as const, value: cell.number };
  if (!reading.ok) return { problem: reading.problem };
  const written = ('unit' in reading ? reading.unit : undefined) ?? columnUnit;
  const from = written ? (unitNamed(written) ?? written) : null;
  const to = own ? (unitNamed(own) ?? own) : null;
  if (!from || from === to) return { value: reading.value };
  if (!to)
    return from === '%'
      ? { value: reading.value }
      : {
          problem: `this is in ${from}, but the field has no unit`,
          remedy: 'give the trait a unit, or take the unit out of the file',
        };
  if (!convertible(from, to))
    return {
      problem: `${from} cannot be turned into ${to}`,
      remedy: `write it in ${to} or ${shownUnit(to, 'us')}`,
    };
  return { value: convert(reading.value, from, to) };
}
