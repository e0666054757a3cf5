import type { Kysely } from 'kysely';
import type { Tables } from './columns.ts';

/** A table seen as any other: for code that serves every kind alike. */
export type AnyTables = Record<string, Record<string, unknown>>;

export const anyTable = (db: Kysely<Tables>): Kysely<AnyTables> => db as unknown as Kysely<AnyTables>;

/** Cuts a list into parts: databases take a limited number of values in one question (SQLite 32,766). */
export function* chunksOf<T>(items: readonly T[], size: number): Generator<T[]> {
  for (let start = 0; start < items.length; start += size) yield items.slice(start, start + size);
}
