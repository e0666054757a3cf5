import { isTimeZone, type ProgrammeSettings, programmeSettings } from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import { RecordsError } from '../errors.ts';
import type { Tables } from '../schema/columns.ts';

/** What the programme sets once for all its records; null where the store is new. */
export async function readSettings(db: Kysely<Tables>): Promise<ProgrammeSettings | null> {
  const row = await db.selectFrom('programme').selectAll().executeTakeFirst();
  if (!row) return null;
  const patterns = await db.selectFrom('code_patterns').selectAll().execute();
  return programmeSettings.parse({
    name: row.name,
    // A zone that this computer does not know must not shut the programme; another can be chosen in the settings.
    timeZone: isTimeZone(row.time_zone) ? row.time_zone : 'UTC',
    units: row.units,
    kindOfGarden: row.kind_of_garden,
    codePatterns: Object.fromEntries(patterns.map(({ kind, pattern }) => [kind, pattern])),
  });
}

/** Stores the settings, whole; refuses what does not fit them. */
export async function writeSettings(db: Kysely<Tables>, settings: ProgrammeSettings): Promise<void> {
  const checked = programmeSettings.safeParse(settings);
  if (!checked.success) {
    const issue = checked.error.issues[0]!;
    throw new RecordsError('input', `${issue.path.join(' › ')}: ${issue.message}`, undefined, {
      field: String(issue.path[0]),
    });
  }
  const row = {
    name: settings.name,
    time_zone: settings.timeZone,
    units: settings.units,
    kind_of_garden: settings.kindOfGarden,
  };
  await db.transaction().execute(async (tx) => {
    await tx
      .insertInto('programme')
      .values({ id: 1, ...row })
      .onConflict((clash) => clash.column('id').doUpdateSet(row))
      .execute();
    await tx.deleteFrom('code_patterns').execute();
    const patterns = Object.entries(settings.codePatterns).map(([kind, pattern]) => ({ kind, pattern }));
    if (patterns.length > 0) await tx.insertInto('code_patterns').values(patterns).execute();
  });
}

/** Today's date in a time zone. now: the moment, given by the caller. */
export function todayIn(timeZone: string, now: Date): string {
  return new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  }).format(now);
}
