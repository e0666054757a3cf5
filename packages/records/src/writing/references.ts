import { type KindName, kindOf } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { anyTable, chunksOf } from '../schema/any-table.ts';
import { type Tables, tableOf } from '../schema/columns.ts';

const idShape = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

export const isId = (text: string): boolean => idShape.test(text);

/** Databases take a limited number of values in one question (SQLite 32,766). */
const atOnce = 5000;

/** Ids of records by their code or id, asked for in bulk and remembered. */
export class References {
  readonly #db: Kysely<Tables>;
  readonly #known = new Map<string, Map<string, string | null>>();

  constructor(db: Kysely<Tables>) {
    this.#db = db;
  }

  #of(kind: KindName): Map<string, string | null> {
    let map = this.#known.get(kind);
    if (!map) {
      map = new Map();
      this.#known.set(kind, map);
    }
    return map;
  }

  /** Makes sure that the ids behind these codes are known. */
  async prepare(kind: KindName, names: Iterable<string>): Promise<void> {
    const known = this.#of(kind);
    const unknown = [...new Set(names)].filter((name) => !known.has(name));
    const key = kindOf(kind).key;
    const db = anyTable(this.#db);
    const byId = unknown.filter(isId);
    const byKey = unknown.filter((name) => !isId(name));
    for (const chunk of chunksOf(byId, atOnce)) {
      const rows = await db
        .selectFrom(tableOf(kind))
        .select('id')
        .where('id', 'in', chunk)
        .where('ended_act', 'is', null)
        .execute();
      for (const { id } of rows) known.set(id as string, id as string);
    }
    if (key) {
      for (const chunk of chunksOf(byKey, atOnce)) {
        const rows = await db
          .selectFrom(tableOf(kind))
          .select(['id', key])
          .where(key, 'in', chunk)
          .where('ended_act', 'is', null)
          .execute();
        for (const row of rows) known.set(row[key] as string, row.id as string);
      }
    }
    for (const name of unknown) if (!known.has(name)) known.set(name, null);
  }

  /** The id behind a code or id that was prepared; null where there is no such record. */
  idOf(kind: KindName, name: string): string | null {
    return this.#known.get(kind)?.get(name) ?? null;
  }

  /** Tells of a record that is being stored in the same act. */
  learn(kind: KindName, code: string, id: string): void {
    const known = this.#of(kind);
    known.set(code, id);
    known.set(id, id);
  }
}
