import {
  type AnyRow,
  type AnyValue,
  dateOfDay,
  dayNumber,
  type Field,
  fieldsOf,
  type KindName,
  keptAs,
  kindNames,
  kindOf,
  type PossibleParent,
  rowProblems,
  type TraitSort,
} from '@keelrow/breeding/facts';
import fc from 'fast-check';

/** Records of all kinds that go together: what one refers to is among the others. */
export type Records = ReadonlyMap<KindName, readonly (AnyRow & { readonly id: string })[]>;

const today = '2026-06-10';
const perKind = 3;

/** Texts as people write them and as they trip up readers of files; without blanks at their ends, which files drop. */
const text = fc
  .oneof(
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 24 }),
    fc.string({
      unit: fc.constantFrom(
        '"',
        "'",
        ',',
        ';',
        '\t',
        '|',
        '\n',
        ' ',
        '=',
        '-',
        '+',
        '@',
        '0',
        'a',
        'é',
        '_x000D_',
        '<',
        '&',
        'ï',
      ),
      minLength: 1,
      maxLength: 10,
    }),
    fc.constantFrom(
      'NA',
      'n/a',
      '-',
      'yes',
      'TRUE',
      '2027-04-03',
      '3/4/2021',
      '12',
      '1,5',
      '=1+1',
      '@SUM(A1)',
      "'quoted'",
      '#N/A',
      'dead',
      'not yet',
      'sep=;',
      'Lupinus × hybridus „Slate“',
      'first line\nsecond line',
      '𝔘nicode 🌱 ︎',
    ),
  )
  .map((written) => written.replaceAll('\0', '').trim())
  .filter((written) => written !== '');

/** A code that no other record of its kind has, with signs in it that files make trouble of. */
const codeEnding = fc.constantFrom(
  '',
  '/1',
  ' b',
  '=1',
  ',x',
  "'s",
  '"x"',
  'é',
  ':a',
  '.0',
  ' 2027-04-03',
  '%',
);

/** A number as a tape or a scale gives it: at most six decimals. */
const decimal = (least: number, most: number): fc.Arbitrary<number> =>
  fc
    .tuple(
      fc.integer({ min: Math.ceil(least * 100), max: Math.floor(most * 100) }),
      fc.constantFrom(0, 0.1, 0.25, 0.0625, 0.3333),
    )
    .map(([whole, part]) => Math.min(most, Number(((whole + part) / 100).toFixed(6))) + 0);

/**
 * A number in this unit. Temperatures have two decimals: a thousandth of a degree near freezing does not come back
 * to the digit from degrees Fahrenheit, where 32 stands before it.
 */
const quantity = (unit: string | null | undefined, least: number, most: number): fc.Arbitrary<number> =>
  unit === '°C'
    ? fc.integer({ min: Math.ceil(least * 100), max: Math.floor(most * 100) }).map((whole) => whole / 100)
    : decimal(least, most);

const unit = fc.constantFrom('cm', 'mm', 'm', 'g', '°C', '%', 'days', 'points', 'inches', 'CM', 'lb');

const date = fc.integer({ min: dayNumber('1890-01-01'), max: dayNumber(today) }).map(dateOfDay);
const lab = fc.record({ l: decimal(0, 100), a: decimal(-120, 120), b: decimal(-120, 120) });
const word = text.map((written) => written.replaceAll('|', '/'));
const list = fc.uniqueArray(word, { minLength: 1, maxLength: 3 });
const integers = 2_147_483_647;

function anyValue(field: Field): fc.Arbitrary<AnyValue> {
  switch (field.type) {
    case 'number':
      return quantity(
        field.unit,
        Math.max(field.least ?? -9999, -9999),
        Math.min(field.most ?? 99_999, 99_999),
      );
    case 'integer':
      return fc.integer({ min: field.least ?? -integers, max: field.most ?? integers });
    case 'date':
      return date;
    case 'time':
      return fc.integer({ min: 0, max: 24 * 60 - 1 }).map((minute) => {
        const two = (number: number) => String(number).padStart(2, '0');
        return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
      });
    case 'yes-no':
      return fc.boolean();
    case 'choice':
      return fc.constantFrom(...field.choices);
    case 'list':
      return list;
    case 'colour':
      return lab;
    default:
      return text;
  }
}

const idOf = (kind: KindName, index: number): string =>
  `0190${kindNames.indexOf(kind).toString(16).padStart(4, '0')}-0000-7000-8000-${String(index).padStart(12, '0')}`;

type Codes = ReadonlyMap<KindName, readonly string[]>;

const allCodes: fc.Arbitrary<Codes> = fc
  .tuple(...kindNames.map(() => fc.tuple(...Array.from({ length: perKind }, () => codeEnding))))
  .map(
    (endings) =>
      new Map(
        kindNames.map((kind, index): [KindName, string[]] => [
          kind,
          endings[index]!.map((ending, at) => `${kind.slice(0, 2).toUpperCase()}-${at + 1}${ending}`),
        ]),
      ),
  );

/** Possible parents among the codes given; on the pollen side the seed parent itself too. */
function parents(codes: readonly string[], side: 'seed' | 'pollen'): fc.Arbitrary<AnyValue> {
  const from = side === 'pollen' ? [...codes, 'self'] : codes;
  if (from.length === 0) return fc.constant([]);
  const several = fc
    .tuple(
      fc.uniqueArray(fc.constantFrom(...from), { minLength: 1, maxLength: 3 }),
      fc.integer({ min: 1, max: 33 }),
    )
    .map(([names, share]) => names.map((genet): PossibleParent => ({ genet, chance: share / 100 })));
  return fc.oneof(
    several,
    fc.constantFrom(...from).map((genet) => [{ genet, chance: 1 }]),
    fc.constant([]),
  );
}

/** Which codes a reference may name so that no genet becomes its own ancestor and no place lies in itself. */
function namable(
  kind: KindName,
  name: string,
  field: Extract<Field, { type: 'reference' }>,
  codes: Codes,
  at: number,
): readonly string[] {
  const all = codes.get(field.to as KindName)!;
  // The last genet alone comes of a cross or a lot, whose parents are the others.
  if (kind === 'genets' && ['cross', 'seed_lot', 'sowing'].includes(name))
    return at === perKind - 1 ? all : [];
  if (kind === 'seed-lots' && name === 'seed_parent') return all.slice(0, perKind - 1);
  return field.to === kind ? all.slice(0, at) : all;
}

function rowOf(kind: KindName, codes: Codes, at: number): fc.Arbitrary<AnyRow & { id: string }> {
  const { key, oneOf } = kindOf(kind);
  const fields: Record<string, fc.Arbitrary<AnyValue>> = {};
  for (const [name, field] of fieldsOf(kind)) {
    if (name === key) fields[name] = fc.constant(codes.get(kind)![at]!);
    else if (field.type === 'reference') {
      const choices = namable(kind, name, field, codes, at);
      fields[name] = choices.length > 0 ? fc.constantFrom(...choices) : fc.constant(null);
    } else if (field.type === 'parents') {
      // The last genet may be raised from a cross, whose parents are the others.
      const possible = codes.get('genets')!.slice(0, kind === 'genets' ? at : perKind - 1);
      fields[name] = parents(possible, field.side);
    } else fields[name] = kind === 'traits' && name === 'unit' ? fc.oneof(unit, text) : anyValue(field);
    if (!field.required && field.type !== 'parents') {
      fields[name] = fc.option(fields[name]!, { nil: null, freq: 2 });
    }
  }
  return fc.tuple(fc.record(fields), fc.nat()).map(([row, chosen]) => {
    const only = oneOf?.[chosen % oneOf.length];
    const to = only ? (fieldsOf(kind).find(([name]) => name === only)![1] as { to: string }).to : '';
    const subject = only
      ? {
          ...Object.fromEntries(oneOf!.map((name) => [name, null])),
          [only]: codes.get(to as KindName)![chosen % perKind]!,
        }
      : {};
    return withinRules(kind, { ...row, ...subject, id: idOf(kind, at + 1) }, at);
  });
}

/** Brings fields into the order that the rules between fields ask for. */
function withinRules(kind: KindName, row: AnyRow & { id: string }, at: number): AnyRow & { id: string } {
  const mended: Record<string, AnyValue | undefined> = { ...row };
  if (kind === 'traits') Object.assign(mended, { least: null, most: null });
  if (kind === 'traits' && row.sort === 'classed' && !row.classes) mended.classes = ['bare', 'Bare', 'leafy'];
  // One day of weather a site and day.
  if (kind === 'weather')
    mended.on = dateOfDay(Math.floor(dayNumber(String(row.on)) / perKind - 1) * perKind + at);
  const ordered: readonly [string, string][] = [
    ['tmin_c', 'tmax_c'],
    ['germinated', kind === 'pollen-tests' ? 'counted' : 'seeds'],
    ['pods_gathered', 'pods_set'],
    ['at_least', 'at_most'],
    ['planted_on', kind === 'trials' ? 'ended_on' : 'gone_on'],
    ['from_date', 'until_date'],
    ['on', 'bag_off_on'],
  ];
  for (const [less, more] of ordered) {
    const [a, b] = [mended[less], mended[more]];
    if (a != null && b != null && a > b) Object.assign(mended, { [less]: b, [more]: a });
  }
  return mended as AnyRow & { id: string };
}

/** Gives each note a value of its trait's sort, or a state that says why there is none. */
function noteValue(note: AnyRow & { id: string }, trait: AnyRow): fc.Arbitrary<AnyRow & { id: string }> {
  if (note.state !== null && note.state !== 'seen') return fc.constant({ ...note, value: null });
  const kept = keptAs[trait.sort as TraitSort];
  const value: fc.Arbitrary<AnyValue> =
    kept === 'number'
      ? trait.sort === 'counted'
        ? fc.integer({ min: 0, max: 5000 })
        : quantity(trait.unit as string | null, -999, 9999)
      : kept === 'date'
        ? date
        : kept === 'class'
          ? fc.constantFrom(...(trait.classes as readonly string[]))
          : kept === 'colour'
            ? lab
            : text;
  return value.map((given) => ({ ...note, value: given }));
}

/** Any valid records of every kind, three of each, referring to one another. */
export const arbitraryRecords: fc.Arbitrary<Records> = allCodes.chain((codes) =>
  fc
    .tuple(
      ...kindNames.map((kind) =>
        fc.tuple(...Array.from({ length: perKind }, (_, at) => rowOf(kind, codes, at))),
      ),
    )
    .chain((rows) => {
      const records = new Map(
        kindNames.map((kind, index) => [kind, rows[index] as (AnyRow & { id: string })[]]),
      );
      const traits = new Map(records.get('traits')!.map((trait) => [trait.code, trait]));
      return fc
        .tuple(...records.get('notes')!.map((note) => noteValue(note, traits.get(note.trait)!)))
        .map((notes) => new Map([...records, ['notes', notes as (AnyRow & { id: string })[]]]));
    }),
);

/** Says of generated records what the catalogue finds wrong with them: nothing, if the generator is right. */
export const problemsOf = (records: Records): string[] =>
  [...records].flatMap(([kind, rows]) =>
    rows.flatMap((row) =>
      rowProblems(kind, row, today).map(({ field, problem }) => `${kind}.${field}: ${problem}`),
    ),
  );
