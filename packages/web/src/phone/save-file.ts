import { type AnyRow, type AnyValue, writeLab } from '@keelrow/breeding/facts';
import type { KeptFact, WaitingFact } from './facts.ts';
import type { PhoneDatabase, PhotoRow } from './phone-database.ts';

/** A file of what waits on a phone: facts in full, pictures in base64. */
interface SavedFile {
  readonly file: 'keelrow-waiting-notes';
  readonly version: 1;
  readonly savedAt: string;
  readonly facts: readonly WaitingFact[];
  readonly photos: readonly (Omit<PhotoRow, 'bytes'> & { readonly base64: string })[];
}

const waitingIn = (db: PhoneDatabase): Promise<WaitingFact[]> =>
  db.reliably(
    () => db.facts.where('state').anyOf('waiting', 'refused').sortBy('order') as Promise<WaitingFact[]>,
  );

/** Everything that waits or was refused, as JSON that another Keelrow takes in and hands over. */
export async function savedAsJson(db: PhoneDatabase, savedAt: string): Promise<Blob> {
  const facts = await waitingIn(db);
  const photos = await db.reliably(() => db.photos.toArray());
  const saved: SavedFile = {
    file: 'keelrow-waiting-notes',
    version: 1,
    savedAt,
    facts,
    photos: photos.map(({ bytes, ...rest }) => ({ ...rest, base64: inBase64(bytes) })),
  };
  return new Blob([JSON.stringify(saved, null, 1)], { type: 'application/json' });
}

const columns = ['plant', 'trait', 'on', 'at', 'state', 'value', 'photo', 'by', 'remark'] as const;

/**
 * Notes that wait or were refused, as a table that people can read and that the import of notes takes. Plants and
 * traits by their codes, as far as the phone holds them.
 */
export async function savedAsCsv(db: PhoneDatabase): Promise<Blob> {
  const facts = await waitingIn(db);
  const held = await db.reliably(() => db.held.get('holdings'));
  const ids = [...new Set(facts.flatMap(({ row }) => (typeof row?.plant === 'string' ? [row.plant] : [])))];
  const plants = await db.reliably(() => db.plants.bulkGet(ids));
  const codes = new Map<string, string>([
    ...plants.flatMap((plant) => (plant ? [[plant.id, plant.code] as const] : [])),
    ...(held?.traits ?? []).map(({ id, code }) => [id, code] as const),
  ]);
  const lines = facts.flatMap(({ kind, row }) =>
    kind === 'notes' && row ? [columns.map((column) => cell(row, column, codes)).join(',')] : [],
  );
  return new Blob([`${[columns.join(','), ...lines].join('\r\n')}\r\n`], { type: 'text/csv' });
}

function cell(row: AnyRow, column: string, codes: ReadonlyMap<string, string>): string {
  const text = written(row[column]);
  const named = guarded(column === 'plant' || column === 'trait' ? (codes.get(text) ?? text) : text);
  return /[",\r\n]/.test(named) ? `"${named.replaceAll('"', '""')}"` : named;
}

/** An apostrophe before what a spreadsheet program would run as a formula; the import takes it off. */
const guarded = (text: string): string =>
  /^'*[=+\-@\t\r\n]/.test(text) && !/^[+-]?\d+(\.\d+)?$/.test(text) ? `'${text}` : text;

function written(value: AnyValue | undefined): string {
  if (value === null || value === undefined) return '';
  if (typeof value !== 'object') return String(value);
  return 'l' in value ? writeLab(value) : JSON.stringify(value);
}

/**
 * Takes a saved file in, so that this browser hands over what another saved; what is here already stays as it is.
 * Returns how many facts and pictures came new. Throws in words where the file is none of Keelrow's.
 */
export async function takeSavedFile(
  db: PhoneDatabase,
  text: string,
): Promise<{ facts: number; photos: number }> {
  const { facts, photos } = readSaved(text);
  return db.reliably(() =>
    db.transaction('rw', [db.facts, db.photos], async () => {
      const news: KeptFact[] = [];
      for (const { order: _elsewhere, ...fact } of facts) {
        if (await db.facts.where('id').equals(fact.id).count()) continue;
        news.push({ ...fact, state: 'waiting', problem: null });
      }
      await db.facts.bulkAdd(news);
      await db.photos.bulkPut(
        photos.map(({ base64, ...rest }) => ({ ...rest, problem: null, bytes: fromBase64(base64) })),
      );
      return { facts: news.length, photos: photos.length };
    }),
  );
}

function readSaved(text: string): SavedFile {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    read = null;
  }
  const saved = read as Partial<SavedFile> | null;
  if (
    saved?.file !== 'keelrow-waiting-notes' ||
    !Array.isArray(saved.facts) ||
    !Array.isArray(saved.photos)
  ) {
    throw new Error('This is not a file of waiting notes. Choose the .json file that a phone saved.');
  }
  if (saved.version !== 1) {
    throw new Error(
      'This file was saved by a newer Keelrow. Bring Keelrow up to date here, then take it in.',
    );
  }
  return saved as SavedFile;
}

function inBase64(bytes: ArrayBuffer): string {
  let text = '';
  const all = new Uint8Array(bytes);
  // In pieces: a call takes only so many arguments.
  for (let i = 0; i < all.length; i += 0x8000) text += String.fromCharCode(...all.subarray(i, i + 0x8000));
  return btoa(text);
}

const fromBase64 = (text: string): ArrayBuffer =>
  Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)).buffer;
