import type { Kysely } from 'kysely';
import type { Programme } from '../database/programme.ts';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';

/** What stands on a printed round sheet. */
export interface RoundSheetContent {
  /** Code of the bed; null for all beds. */
  readonly place: string | null;
  /** Codes of its columns' traits. */
  readonly traits: readonly string[];
  /** Ids of its rows' plants, in the order of the rows. */
  readonly plants: readonly string[];
}

export interface RoundSheet extends RoundSheetContent {
  /** Its number, such as R31-07. */
  readonly code: string;
  /** Server's clock, UTC, ISO 8601. */
  readonly madeAt: string;
}

/** Keeps what stands on a sheet under the next free number of its year. now: the server's clock. */
export async function keepRoundSheet(
  programme: Programme,
  { place, traits, plants }: RoundSheetContent,
  now: Date,
): Promise<RoundSheet> {
  const madeAt = now.toISOString();
  const begins = `R${madeAt.slice(2, 4)}-`;
  for (let tries = 0; tries < 20; tries++) {
    const taken = await programme.read
      .selectFrom('round_sheets')
      .select('code')
      .where('code', 'like', `${begins}%`)
      .execute();
    const last = Math.max(0, ...taken.map(({ code }) => Number(code.slice(begins.length))));
    const code = begins + String(last + 1).padStart(2, '0');
    const { numInsertedOrUpdatedRows } = await programme.write
      .insertInto('round_sheets')
      .values({ code, made_at: madeAt, content: JSON.stringify({ place, traits, plants }) })
      // Two that print at once do not get the same number: the later one takes the next.
      .onConflict((clash) => clash.column('code').doNothing())
      .executeTakeFirst();
    if (Number(numInsertedOrUpdatedRows) === 1) return { place, traits, plants, code, madeAt };
  }
  throw new RecordsError('conflict', 'no number for the sheet could be had', 'try again');
}

/** The sheet with this number, capitals aside; throws RecordsError where there is none. */
export async function readRoundSheet(db: Kysely<Tables>, code: string): Promise<RoundSheet> {
  const row = await db
    .selectFrom('round_sheets')
    .selectAll()
    .where('code', '=', code.trim().toUpperCase())
    .executeTakeFirst();
  if (!row)
    throw new RecordsError(
      'absent',
      `there is no round sheet “${code}”`,
      'its number stands in the upper right corner of the sheet, such as R31-07',
    );
  return asSheet(row);
}

/** The sheets printed last, newest first. */
export async function readRoundSheets(db: Kysely<Tables>, most: number): Promise<RoundSheet[]> {
  const rows = await db
    .selectFrom('round_sheets')
    .selectAll()
    .orderBy('made_at', 'desc')
    .orderBy('code', 'desc')
    .limit(most)
    .execute();
  return rows.map(asSheet);
}

const asSheet = (row: { code: string; made_at: string; content: string }): RoundSheet => ({
  ...(JSON.parse(row.content) as RoundSheetContent),
  code: row.code,
  madeAt: row.made_at,
});
