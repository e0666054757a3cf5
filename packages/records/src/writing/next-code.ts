import { type KindName, kindOf, nextCode, usualPatterns } from '@keelrow/breeding/facts';
import type { Programme } from '../database/programme.ts';
import { readSettings } from '../database/settings.ts';
import { anyTable } from '../schema/any-table.ts';
import { tableOf } from '../schema/columns.ts';

/**
 * The next free code of a kind by the programme's pattern. of: the code of the record it belongs to, where the
 * pattern asks for it. Null for kinds without a pattern.
 */
export async function suggestCode(
  programme: Programme,
  kind: KindName,
  year: number,
  of: string,
): Promise<string | null> {
  const settings = await readSettings(programme.read);
  const pattern = settings?.codePatterns[kind] ?? usualPatterns[kind];
  const { key } = kindOf(kind);
  if (!pattern || !key || (pattern.includes('{of}') && of === '')) return null;
  const before = pattern
    .slice(0, pattern.indexOf('{serial'))
    .replaceAll('{year}', String(year))
    .replaceAll('{yy}', String(year % 100).padStart(2, '0'))
    .replaceAll('{of}', of);
  const rows = await anyTable(programme.read)
    .selectFrom(tableOf(kind))
    .select(key)
    .where(key, '>=', before)
    .where(key, '<', `${before}\u{10ffff}`)
    .execute();
  return nextCode(
    pattern,
    rows.map((row) => row[key] as string),
    year,
    of,
  );
}
