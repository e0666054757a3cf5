import { sql } from 'kysely';
import { expect } from 'vitest';
import type { Programme } from '../../src/index.ts';

/**
 * Asks SQLite whether the file is whole and every reference has its record.
 * source: SQLite, “PRAGMA Statements”: integrity_check says “ok”, foreign_key_check says nothing where all is well
 */
export async function expectWhole(programme: Programme): Promise<void> {
  const integrity = await sql<{ integrity_check: string }>`pragma integrity_check`.execute(programme.write);
  expect(integrity.rows).toEqual([{ integrity_check: 'ok' }]);
  expect((await sql`pragma foreign_key_check`.execute(programme.write)).rows).toEqual([]);
}
