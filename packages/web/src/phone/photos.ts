import { ApiError } from '../api/api-error.ts';
import type { Line } from './line.ts';
import type { PhoneDatabase, PhotoRow } from './phone-database.ts';

/** SHA-256 in hexadecimal. Throws where the page was not loaded safely: browsers then have no hashes. */
async function hashOf(bytes: ArrayBuffer): Promise<string> {
  if (!globalThis.crypto?.subtle) {
    throw new Error('Pictures need a safe connection (https). Open Keelrow by its https address.');
  }
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** What is known of a picture or memo when it is kept. */
export interface AboutPhoto {
  readonly mediaType: string;
  /** In words, for lists: `2031-004-3/1 Flower colour`. */
  readonly words: string;
}

/** Keeps the bytes of a picture on the phone until the server has them; the same picture twice is kept once. */
export async function keepPhoto(
  db: PhoneDatabase,
  bytes: ArrayBuffer,
  { mediaType, words }: AboutPhoto,
  now: () => Date,
): Promise<{ hash: string }> {
  const hash = await hashOf(bytes);
  const row: PhotoRow = { hash, bytes, mediaType, words, madeAt: now().toISOString(), problem: null };
  await db.reliably(() => db.photos.put(row));
  return { hash };
}

/**
 * Sends pictures one by one and forgets each only when the server has confirmed its hash. One that is refused stays
 * with the reason and does not hold up the next. Throws ApiError where the server cannot be reached or lets nobody in.
 */
export async function handOverPhotos(db: PhoneDatabase, line: Line): Promise<void> {
  const hashes = await db.reliably(() => db.photos.toCollection().primaryKeys());
  for (const hash of hashes) {
    const photo = await db.reliably(() => db.photos.get(hash));
    if (!photo || photo.problem !== null) continue;
    try {
      const answer = await line.takePhoto(hash, photo.bytes, photo.mediaType);
      if (answer.hash === hash) await db.reliably(() => db.photos.delete(hash));
    } catch (error) {
      if (!(error instanceof ApiError) || ![400, 409, 413, 415, 422].includes(error.status)) throw error;
      await db.reliably(() => db.photos.update(hash, { problem: error.message }));
    }
  }
}
