import { Kysely, PostgresDialect } from 'kysely';
import pg from 'pg';
import type { Tables } from '../schema/columns.ts';

/**
 * PostgreSQL hands counts (bigint) and sums (numeric) over as text; SQLite as numbers. One table of parsers makes
 * both speak alike. All our integers lie far below 2^53.
 */
const parsers = new Map<number, (text: string) => unknown>([
  [pg.types.builtins.INT8, Number],
  [pg.types.builtins.NUMERIC, Number],
]);

const types: pg.CustomTypesConfig = {
  getTypeParser: ((oid: number, format?: 'text' | 'binary') =>
    parsers.get(oid) ??
    pg.types.getTypeParser(oid, format as 'text')) as pg.CustomTypesConfig['getTypeParser'],
};

/**
 * A pool of connections to one programme in PostgreSQL 15 or newer. url: `postgres://…`. patience: milliseconds to
 * wait for a connection.
 */
export function openPool(url: string, patience: number): Kysely<Tables> {
  const pool = new pg.Pool({ connectionString: url, types, max: 6, connectionTimeoutMillis: patience });
  // A connection that breaks while idle must not end the process; the next query gets a new one.
  pool.on('error', () => undefined);
  return new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
}
