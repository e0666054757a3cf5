import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type AnyRow, type Profile, readProfile } from '@keelrow/breeding/facts';
import { shippedProfiles } from '@keelrow/breeding/profiles';
import type { Programme } from '../database/programme.ts';
import { inWords } from '../database/trouble.ts';
import { RecordsError } from '../errors.ts';
import { type ActBy, act } from '../writing/act.ts';
import { add } from '../writing/add.ts';

/** A profile as it stands in the programme's folder: readable, or with all that is wrong with it. */
export interface ProfileFile {
  readonly name: string;
  readonly text: string;
  readonly profile: Profile | null;
  readonly problems: readonly string[];
}

const asText = (profile: Profile): string => `${JSON.stringify(profile, null, 2)}\n`;

/** Reads the text of a profile; says all that is wrong with it. */
export function readProfileText(name: string, text: string): ProfileFile {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return { name, text, profile: null, problems: [`the file is not JSON: ${(error as Error).message}`] };
  }
  const result = readProfile(json);
  if ('problems' in result) return { name, text, profile: null, problems: result.problems };
  const { profile } = result;
  if (profile.profile !== name)
    return {
      name,
      text,
      profile: null,
      problems: [`profile: it calls itself “${profile.profile}”, its file is named “${name}”`],
    };
  return { name, text, profile, problems: [] };
}

/**
 * The profiles of a programme: files in its folder `profiles`, which begins as a copy of those that ship and is the
 * breeder's to change, add to and share. A programme without a folder has the shipped ones.
 */
export function readProfiles(programme: Programme): ProfileFile[] {
  if (programme.folder === null)
    return shippedProfiles.map((profile) => ({
      name: profile.profile,
      text: asText(profile),
      profile,
      problems: [],
    }));
  const folder = join(programme.folder, 'profiles');
  try {
    if (!existsSync(folder)) {
      mkdirSync(folder);
      for (const profile of shippedProfiles)
        writeFileSync(join(folder, `${profile.profile}.json`), asText(profile));
    }
    return readdirSync(folder)
      .filter((file) => file.endsWith('.json'))
      .sort()
      .map((file) =>
        readProfileText(file.slice(0, -'.json'.length), readFileSync(join(folder, file), 'utf8')),
      );
  } catch (error) {
    throw inWords(error);
  }
}

/** Writes a profile that was changed or added; refuses one with anything wrong. */
export function writeProfile(programme: Programme, name: string, text: string): ProfileFile {
  if (!/^[a-z0-9-]{1,60}$/.test(name))
    throw new RecordsError(
      'input',
      `“${name}” is no name for a profile`,
      'use small letters, digits and hyphens',
    );
  const read = readProfileText(name, text);
  if (read.profile === null)
    throw new RecordsError('input', read.problems.join('; '), 'mend it and save again', { field: 'text' });
  if (programme.folder === null) throw new RecordsError('store', 'this programme has no folder for profiles');
  readProfiles(programme);
  const file = join(programme.folder, 'profiles', `${name}.json`);
  try {
    writeFileSync(`${file}.part`, text);
    renameSync(`${file}.part`, file);
  } catch (error) {
    throw inWords(error);
  }
  return read;
}

/** Makes the traits of a profile that the programme lacks; returns their codes. Traits that are there stay as they are. */
export async function takeProfileTraits(programme: Programme, by: ActBy, name: string): Promise<string[]> {
  const found = readProfiles(programme).find((file) => file.name === name);
  if (!found) throw new RecordsError('absent', `there is no profile “${name}”`);
  if (!found.profile)
    throw new RecordsError(
      'input',
      `the profile “${name}” cannot be read: ${found.problems[0]}`,
      'mend its file',
    );
  const { traits } = found.profile;
  return act(programme, by, async (doing) => {
    const there = await doing.tx
      .selectFrom('traits')
      .select('code')
      .where(
        'code',
        'in',
        traits.map(({ code }) => code),
      )
      .execute();
    const taken = new Set(there.map(({ code }) => code));
    const rows = traits
      .filter(({ code }) => !taken.has(code))
      .map(({ source, ...trait }): AnyRow => ({ ...trait, remark: `from the profile ${name}; ${source}` }));
    await add(doing, 'traits', rows);
    return rows.map(({ code }) => code as string);
  });
}
