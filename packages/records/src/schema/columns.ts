import { type Catalogue, type Field, fieldsOf, type KindName } from '@keelrow/breeding/facts';
import type { Generated } from 'kysely';

/** Stored types: dates and times are text in both databases, yes and no are 1 and 0. */
type StoredType = 'text' | 'integer' | 'real';

export interface StoredColumn {
  readonly name: string;
  readonly type: StoredType;
  readonly required: boolean;
  /** The kind of record that the column refers to. */
  readonly to?: KindName;
}

/** The table of a kind: `seed-lots` is kept in `seed_lots`. */
export const tableOf = (kind: KindName): string => kind.replaceAll('-', '_');

/** The side table that holds the possible parents of a kind's records. */
export const parentsTableOf = (kind: KindName): string => `${tableOf(kind)}_parents`;

/** Columns that hold one field; parents have none, they stand in a table of their own. */
function columnsOfField(name: string, field: Field): StoredColumn[] {
  const required = field.required === true;
  switch (field.type) {
    case 'integer':
    case 'yes-no':
      return [{ name, type: 'integer', required }];
    case 'number':
      return [{ name, type: 'real', required }];
    case 'reference':
      return [{ name, type: 'text', required, to: field.to as KindName }];
    case 'colour':
      return ['l', 'a', 'b'].map((axis) => ({ name: `${name}_${axis}`, type: 'real', required }));
    case 'value':
      return [
        { name: `${name}_number`, type: 'real', required: false },
        { name: `${name}_date`, type: 'text', required: false },
        { name: `${name}_text`, type: 'text', required: false },
        ...['l', 'a', 'b'].map(
          (axis): StoredColumn => ({ name: `${name}_${axis}`, type: 'real', required: false }),
        ),
      ];
    case 'parents':
      return [];
    default:
      return [{ name, type: 'text', required }];
  }
}

export const columnsOf = (kind: KindName): StoredColumn[] =>
  fieldsOf(kind).flatMap(([name, field]) => columnsOfField(name, field));

export const hasParents = (kind: KindName): boolean =>
  fieldsOf(kind).some(([, field]) => field.type === 'parents');

/** Columns that every record has beside its own. */
interface CommonColumns {
  id: string;
  /** The act by which it was made. */
  made_act: number;
  /** The act by which it ceased to stand: replaced or withdrawn. Null while it stands. */
  ended_act: number | null;
  /** For a fact: the fact that it corrects. */
  replaces: string | null;
  /** For a fact: a digest of all it says, so that the same fact in a file is known when it comes again. */
  digest: string | null;
}

export interface ParentRow {
  owner: string;
  side: 'seed' | 'pollen';
  listed: number;
  /** The possible parent; null where it is the seed parent itself (a self). */
  parent: string | null;
  chance: number;
}

type Stored<F> = F extends { type: 'number' | 'integer' | 'yes-no' } ? number : string;
type Nullable<F> = F extends { required: true } ? Stored<F> : Stored<F> | null;
type PlainColumns<F extends Readonly<Record<string, Field>>> = {
  [Name in keyof F as F[Name] extends { type: 'parents' | 'colour' | 'value' } ? never : Name]: Nullable<
    F[Name]
  >;
};
type LabColumns<F extends Readonly<Record<string, Field>>> = {
  [Name in keyof F & string as F[Name] extends { type: 'colour' | 'value' }
    ? `${Name}_${'l' | 'a' | 'b'}`
    : never]: number | null;
};
type ValueColumns<F extends Readonly<Record<string, Field>>> = {
  [Name in keyof F & string as F[Name] extends { type: 'value' } ? `${Name}_number` : never]: number | null;
} & {
  [Name in keyof F & string as F[Name] extends { type: 'value' } ? `${Name}_${'date' | 'text'}` : never]:
    | string
    | null;
};

type Underscored<Name extends string> = Name extends `${infer Head}-${infer Tail}`
  ? `${Head}_${Underscored<Tail>}`
  : Name;

type KindTables = {
  [K in KindName as Underscored<K>]: CommonColumns &
    PlainColumns<Catalogue[K]['fields']> &
    LabColumns<Catalogue[K]['fields']> &
    ValueColumns<Catalogue[K]['fields']>;
};

/** Tables that are not kinds of record: who did what when, and what the programme sets. */
interface BookkeepingTables {
  acts: {
    seq: Generated<number>;
    id: string;
    /** Server's clock, UTC, ISO 8601. */
    at: string;
    /** What the sender's own clock said, where it was sent later. */
    said_at: string | null;
    person: string | null;
    device: string | null;
    via: string;
    reason: string | null;
    file_name: string | null;
    file_hash: string | null;
  };
  changes: {
    id: string;
    act: number;
    kind: string;
    record: string;
    field: string;
    before: string | null;
    after: string | null;
  };
  endings: {
    id: string;
    act: number;
    kind: string;
    record: string;
    what: string;
    by_record: string | null;
    reason: string | null;
  };
  programme: { id: number; name: string; time_zone: string; units: string; kind_of_garden: string };
  code_patterns: { kind: string; pattern: string };
  keys: {
    digest: string;
    person: string;
    device: string | null;
    purpose: string;
    made_at: string;
    ends_at: string | null;
  };
  /** When a device last called, by the server's clock, UTC, ISO 8601. */
  sightings: { device: string; at: string };
  /** Notes that say different things and were settled, by one act, to stand side by side. */
  settlements: { act: number; note: string };
  /** Printed round sheets; content: what stands on it, as JSON. */
  round_sheets: { code: string; made_at: string; content: string };
  genets_parents: ParentRow;
  crosses_parents: ParentRow;
}

export type Tables = KindTables & BookkeepingTables;
