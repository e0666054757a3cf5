import {
  type AnyRow,
  type AnyValue,
  type Field,
  fieldsOf,
  type KindName,
  kindOf,
  type PossibleParent,
} from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { anyTable, chunksOf } from '../schema/any-table.ts';
import { hasParents, type ParentRow, parentsTableOf, type Tables, tableOf } from '../schema/columns.ts';

type StoredRow = Record<string, unknown>;

/** A stored row's field in the form of files: references as codes. */
function decodeField(name: string, field: Field, row: StoredRow): AnyValue {
  switch (field.type) {
    case 'yes-no':
      return row[name] === null ? null : row[name] === 1;
    case 'reference':
      return (row[`${name}__key`] ?? null) as string | null;
    case 'list':
      return row[name] ? (row[name] as string).split(' | ') : null;
    case 'colour':
      return labOf(name, row);
    case 'value':
      return (row[`${name}_number`] ??
        row[`${name}_date`] ??
        row[`${name}_text`] ??
        labOf(name, row)) as AnyValue;
    case 'parents':
      return null;
    default:
      return (row[name] ?? null) as AnyValue;
  }
}

const labOf = (name: string, row: StoredRow): AnyValue =>
  row[`${name}_l`] === null || row[`${name}_l`] === undefined
    ? null
    : { l: row[`${name}_l`] as number, a: row[`${name}_a`] as number, b: row[`${name}_b`] as number };

/** The question for rows of a kind with the codes of what they refer to. */
function selectWithCodes(db: Kysely<Tables>, kind: KindName) {
  const table = tableOf(kind);
  let query = anyTable(db).selectFrom(table).selectAll(table);
  for (const [name, field] of fieldsOf(kind)) {
    if (field.type !== 'reference') continue;
    const key = kindOf(field.to as KindName).key!;
    query = query
      .leftJoin(`${tableOf(field.to as KindName)} as ${name}__to`, `${name}__to.id`, `${table}.${name}`)
      .select(`${name}__to.${key} as ${name}__key`);
  }
  return query;
}

async function parentsOf(
  db: Kysely<Tables>,
  kind: KindName,
  ids: readonly string[],
): Promise<Map<string, (ParentRow & { code: string | null })[]>> {
  const byOwner = new Map<string, (ParentRow & { code: string | null })[]>();
  const table = parentsTableOf(kind);
  for (const chunk of chunksOf(ids, 5000)) {
    const rows = (await anyTable(db)
      .selectFrom(table)
      .leftJoin('genets as parent_genet', 'parent_genet.id', `${table}.parent`)
      .selectAll(table)
      .select('parent_genet.code as code')
      .where('owner', 'in', chunk)
      .orderBy('listed')
      .execute()) as unknown as (ParentRow & { code: string | null })[];
    for (const row of rows) {
      const list = byOwner.get(row.owner);
      if (list) list.push(row);
      else byOwner.set(row.owner, [row]);
    }
  }
  return byOwner;
}

/** Turns stored rows (with codes) into the form of files, parents included. */
async function decode(
  db: Kysely<Tables>,
  kind: KindName,
  rows: readonly StoredRow[],
): Promise<(AnyRow & { id: string })[]> {
  const fields = fieldsOf(kind);
  const parents = hasParents(kind)
    ? await parentsOf(
        db,
        kind,
        rows.map(({ id }) => id as string),
      )
    : null;
  return rows.map((stored) => {
    const row: Record<string, AnyValue> = { id: stored.id as string };
    for (const [name, field] of fields) {
      row[name] =
        field.type === 'parents'
          ? (parents?.get(stored.id as string) ?? [])
              .filter(({ side }) => side === field.side)
              .map(({ code, chance }): PossibleParent => ({ genet: code ?? 'self', chance }))
          : decodeField(name, field, stored);
    }
    return row as AnyRow & { id: string };
  });
}

/** One record by its id, whether it stands or not; null where there is none. */
export async function readRecord(
  db: Kysely<Tables>,
  kind: KindName,
  id: string,
): Promise<(AnyRow & { id: string }) | null> {
  const row = await selectWithCodes(db, kind)
    .where(`${tableOf(kind)}.id`, '=', id)
    .executeTakeFirst();
  return row ? (await decode(db, kind, [row]))[0]! : null;
}

/** The standing record with this code; null where there is none. */
export async function readByCode(
  db: Kysely<Tables>,
  kind: KindName,
  code: string,
): Promise<(AnyRow & { id: string }) | null> {
  const key = kindOf(kind).key!;
  const row = await selectWithCodes(db, kind)
    .where(`${tableOf(kind)}.${key}`, '=', code)
    .where(`${tableOf(kind)}.ended_act`, 'is', null)
    .executeTakeFirst();
  return row ? (await decode(db, kind, [row]))[0]! : null;
}

/** Records by their codes or ids, withdrawn ones included, since neither is ever used again. */
export async function readMany(
  db: Kysely<Tables>,
  kind: KindName,
  wanted: { codes: readonly string[]; ids: readonly string[] },
): Promise<(AnyRow & { id: string })[]> {
  const key = kindOf(kind).key;
  const found: StoredRow[] = [];
  for (const [column, values] of [[key, wanted.codes] as const, ['id', wanted.ids] as const]) {
    if (!column) continue;
    for (const chunk of chunksOf(values, 5000)) {
      found.push(
        ...(await selectWithCodes(db, kind)
          .where(`${tableOf(kind)}.${column}`, 'in', chunk)
          .execute()),
      );
    }
  }
  return decode(db, kind, found);
}

export interface ListWanted {
  /** Only records in whose texts this stands, capitals aside. */
  readonly search?: string;
  readonly offset?: number;
  readonly limit?: number;
}

/** Standing records of a kind in the order of their codes (facts: newest day first), a page of them. */
export async function listRecords(
  db: Kysely<Tables>,
  kind: KindName,
  { search, offset = 0, limit = 200 }: ListWanted,
): Promise<{ total: number; rows: (AnyRow & { id: string })[] }> {
  const table = tableOf(kind);
  const { key } = kindOf(kind);
  const texts = fieldsOf(kind).flatMap(([name, field]) => {
    if (field.type === 'text' || field.type === 'code' || field.type === 'date') return [`${table}.${name}`];
    return field.type === 'reference' ? [`${name}__to.${kindOf(field.to as KindName).key!}`] : [];
  });
  const words = search?.trim().toLowerCase();
  const within = <Query extends ReturnType<typeof selectWithCodes>>(query: Query): Query =>
    (words
      ? query.where((where) =>
          where.or(
            texts.map((column) =>
              where(where.fn('lower', [column]), 'like', `%${words.replace(/[%_\\]/g, ' ')}%`),
            ),
          ),
        )
      : query) as Query;
  const standing = within(selectWithCodes(db, kind).where(`${table}.ended_act`, 'is', null));
  const counted = await standing
    .clearSelect()
    .select((where) => where.fn.countAll<number>().as('total'))
    .executeTakeFirstOrThrow();
  const day = ['on', 'started_on'].find((name) => Object.hasOwn(kindOf(kind).fields, name));
  const ordered = key
    ? standing.orderBy(`${table}.${key}`)
    : day
      ? standing.orderBy(`${table}.${day}`, 'desc').orderBy(`${table}.id`)
      : standing.orderBy(`${table}.id`);
  const rows = await ordered.offset(offset).limit(limit).execute();
  return { total: Number(counted.total), rows: await decode(db, kind, rows) };
}

/** All standing records of a kind, in the order in which they were made, a page at a time: for export. */
export async function* everyRecord(
  db: Kysely<Tables>,
  kind: KindName,
): AsyncGenerator<(AnyRow & { id: string })[]> {
  const table = tableOf(kind);
  let after = '';
  for (;;) {
    const rows = await selectWithCodes(db, kind)
      .where(`${table}.ended_act`, 'is', null)
      .where(`${table}.id`, '>', after)
      .orderBy(`${table}.id`)
      .limit(2000)
      .execute();
    if (rows.length === 0) return;
    after = rows.at(-1)!.id as string;
    yield await decode(db, kind, rows);
  }
}

/** Numbers of standing records of every kind. */
export async function countRecords(
  db: Kysely<Tables>,
  kinds: readonly KindName[],
): Promise<Record<KindName, number>> {
  const counts: Partial<Record<KindName, number>> = {};
  for (const kind of kinds) {
    const { count } = await anyTable(db)
      .selectFrom(tableOf(kind))
      .select((where) => where.fn.countAll<number>().as('count'))
      .where('ended_act', 'is', null)
      .executeTakeFirstOrThrow();
    counts[kind] = Number(count);
  }
  return counts as Record<KindName, number>;
}
