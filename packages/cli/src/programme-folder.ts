import { usualSettings } from '@keelrow/breeding/facts';
import { openProgramme, type Programme } from '@keelrow/records';
import { Option } from 'commander';

const usualFolder = 'keelrow-garden';
export const demoFolder = 'keelrow-demo';

export const dataOption = () =>
  new Option('--data <folder>', 'folder of the programme, or a postgres:// address')
    .env('KEELROW_DATA')
    .default(usualFolder);

/**
 * Opens a programme; begins an empty one where there is none, in this computer's time zone. files: folder for photos
 * and profiles beside a PostgreSQL address.
 */
export const openOrBegin = (where: string, files?: string): Promise<Programme> =>
  openProgramme(
    where,
    { ...usualSettings, timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone },
    { files },
  );

/** Opens a programme that must be there, does something with it and closes it whatever happens. */
export async function withProgramme<Result>(
  where: string,
  work: (programme: Programme) => Promise<Result>,
  open: (where: string) => Promise<Programme> = openProgramme,
): Promise<Result> {
  const programme = await open(where);
  for (const warning of programme.warnings) console.error(warning);
  try {
    return await work(programme);
  } finally {
    await programme.close();
  }
}
