import {
  fieldsOf,
  isKindName,
  type KindName,
  kindNames,
  kindOf,
  storedUnit,
  type TraitRule,
  unitNamed,
} from '@keelrow/breeding/facts';
import {
  type Cell,
  isMissingMark,
  type OpenedTable,
  readDate,
  readNumber,
  splitHeader,
} from '../tables/index.ts';
import { isId } from '../writing/references.ts';
import { distinctTraits } from './distinct-traits.ts';
import { stateIn } from './interpret.ts';
import { type ColumnUse, type ImportPlan, plantColumns } from './plan.ts';

const plain = (text: string): string =>
  text
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

/** Headers that name a field of this kind, plainly written. */
function namesOf(kind: KindName): Map<string, string> {
  const names = new Map<string, string>();
  for (const [name, field] of fieldsOf(kind))
    for (const alias of field.aliases ?? []) names.set(plain(alias), name);
  for (const [name, field] of fieldsOf(kind)) {
    names.set(plain(name), name);
    if ('unit' in field && field.unit) names.set(plain(splitHeader(name).name), name);
  }
  return names;
}

function fieldFor(kind: KindName, header: string): ColumnUse | null {
  const names = namesOf(kind);
  const whole = plain(header);
  if (kind === 'notes' && whole === 'unit') return { field: 'unit' };
  if (names.has(whole)) return { field: names.get(whole)! };
  const { name, unit } = splitHeader(header);
  const field = names.get(plain(name));
  return field ? { field, ...(unit ? { unit: unitNamed(unit) ?? unit } : {}) } : null;
}

const fileName = (name: string): string => plain(name.replace(/\.[a-z0-9]+$/i, '')).replaceAll(' ', '-');

/** The kind that most headers fit, the file's own name counting for it; notes where several columns hold values. */
function guessKind(name: string, headers: readonly string[]): KindName {
  const named = fileName(name);
  if (isKindName(named)) return named;
  const titled = headers.filter((header) => header !== '');
  const scores = kindNames.map((kind) => {
    const fields = new Set(
      titled.flatMap((header) => {
        const use = fieldFor(kind, header);
        return use !== null && 'field' in use ? [use.field] : [];
      }),
    );
    const required = fieldsOf(kind).filter(([, field]) => field.required);
    const found = required.filter(([field]) => fields.has(field)).length;
    return {
      kind,
      share: fields.size / Math.max(1, titled.length),
      score: fields.size + (2 * found) / Math.max(1, required.length) - 0.01 * fieldsOf(kind).length,
    };
  });
  const best = scores.reduce((a, b) => (b.score > a.score ? b : a));
  // A sheet with a row a plant and a column a trait fits no kind well; it is notes.
  return best.share >= 0.6 ? best.kind : 'notes';
}

/**
 * Proposes how to read a file from its headers and first rows. Among notes, columns that fit no field and hold
 * numbers, dates or a few words are proposed as the values of a trait, known or new.
 */
export function proposePlan(
  table: OpenedTable,
  sample: readonly (readonly Cell[])[],
  traits: ReadonlyMap<string, TraitRule>,
  kind = guessKind(table.name, table.headers),
): ImportPlan {
  const used = new Set<string>();
  const columns = table.headers.map((header, index): ColumnUse | null => {
    const texts = sample.map((cells) => cells[index]?.text.trim() ?? '').filter((text) => text !== '');
    const use = isIdColumn(header, texts) ? { field: 'id' } : header === '' ? null : fieldFor(kind, header);
    if (use && 'field' in use) {
      if (used.has(use.field)) return null;
      used.add(use.field);
      if (use.field === 'on' && texts.length > 0 && texts.every(isYear)) return { year: true };
      return use;
    }
    return use;
  });
  if (kind !== 'notes') return { kind, sheet: table.sheet, columns };
  if (used.has('plant')) sayOfPlants(columns, table.headers, sample);
  const hasValue = columns.some((use) => use && 'field' in use && use.field === 'value');
  const proposed = columns.map((use, index): ColumnUse | null => {
    const header = table.headers[index]!;
    if (use || header === '') return use;
    if (/^(year|season|jahr|annee)$/.test(plain(header))) return used.has('on') ? null : { year: true };
    return hasValue
      ? null
      : traitFor(
          header,
          sample.map((cells) => cells[index]),
          traits,
        );
  });
  const named = firstColumnNames(proposed, table.headers, used);
  return { kind, sheet: table.sheet, columns: distinctTraits(named, table.headers) };
}

/** Where rows name a plant and a variety or bed beside it, these are said of the plant, not of the note. */
function sayOfPlants(
  columns: (ColumnUse | null)[],
  headers: readonly string[],
  sample: readonly (readonly Cell[])[],
): void {
  const at = (field: string) => columns.findIndex((use) => use && 'field' in use && use.field === field);
  const [plant, genet, place] = [at('plant'), at('genet'), at('grown_at')];
  const isFilled = (cells: readonly Cell[], index: number) => (cells[index]?.text.trim() ?? '') !== '';
  // A file of notes on plants and on genets, such as our own, fills one or the other of the two in a row.
  if (genet >= 0 && sample.some((cells) => isFilled(cells, plant) && isFilled(cells, genet)))
    columns[genet] = { field: plantColumns.genet };
  if (place >= 0 && plain(headers[place]!) !== 'grown at') columns[place] = { field: plantColumns.place };
}

/** Our own ids are UUIDs; under “ID” people keep their plants' numbers as often. */
const isIdColumn = (header: string, texts: readonly string[]): boolean =>
  plain(header) === 'id' && texts.length > 0 && texts.every(isId);

const isYear = (text: string): boolean => /^(1[89]|20)\d\d(\.0)?$/.test(text);

/** Where nothing says which plant a row is on, its first column of words does. */
function firstColumnNames(
  columns: readonly (ColumnUse | null)[],
  headers: readonly string[],
  used: ReadonlySet<string>,
): (ColumnUse | null)[] {
  const subjects = kindOf('notes').oneOf!;
  if (subjects.some((subject) => used.has(subject))) return [...columns];
  const index = columns.findIndex(
    (use, at) =>
      headers[at] !== '' &&
      (use === null ||
        ('trait' in use && use.newTrait?.sort === 'written') ||
        ('trait' in use && use.newTrait?.sort === 'classed')),
  );
  return columns.map((use, at) => (at === index ? { field: 'plant' } : use));
}

function traitFor(
  header: string,
  cells: readonly (Cell | undefined)[],
  traits: ReadonlyMap<string, TraitRule>,
): ColumnUse | null {
  const { name, unit } = splitHeader(header);
  const inOurs = unit ? (unitNamed(unit) ?? unit) : undefined;
  const wanted = new Set([plain(header), plain(name)]);
  const known = [...traits.values()].find(
    (trait) => wanted.has(plain(trait.code)) || wanted.has(plain(trait.name)),
  );
  if (known) return { trait: known.code, ...(inOurs ? { unit: inOurs } : {}) };
  const texts = cells.flatMap((cell) =>
    cell && !isMissingMark(cell.text) && !stateIn(cell.text) ? [cell] : [],
  );
  if (texts.length === 0) return null;
  const code = plain(name).replaceAll(' ', '-') || 'trait';
  if (mostly(texts, isNumber)) {
    const whole = mostly(texts, (cell) => /^\d{1,4}$/.test(cell.text.trim()));
    const isCount = whole && !inOurs && /count|number|^no |anzahl|spikes|stems/.test(plain(header));
    const newTrait = {
      name: name.trim(),
      sort: isCount ? 'counted' : 'measured',
      unit: inOurs && storedUnit(inOurs),
    } as const;
    return { trait: code, unit: inOurs, newTrait };
  }
  if (mostly(texts, isDay)) return { trait: code, newTrait: { name: name.trim(), sort: 'dated' } };
  return { trait: code, newTrait: { name: name.trim(), sort: 'written' } };
}

/** More than half: slips must not turn a column of numbers into one of words; they are told as faults instead. */
const mostly = (cells: readonly Cell[], fits: (cell: Cell) => boolean): boolean =>
  cells.filter(fits).length > 0.5 * cells.length;

const isNumber = ({ text, number }: Cell): boolean =>
  number !== undefined || (['.', ','] as const).some((decimal) => readNumber(text, { decimal }).ok);

const isDay = (cell: Cell): boolean =>
  cell.date !== undefined || (['ymd', 'dmy', 'mdy'] as const).some((order) => readDate(cell, { order }).ok);
