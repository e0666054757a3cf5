import { createHash } from 'node:crypto';
import { existsSync, mkdirSync } from 'node:fs';
import { open, readFile, rename } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Programme } from '../database/programme.ts';
import { inWords } from '../database/trouble.ts';
import { RecordsError } from '../errors.ts';

const hashShape = /^[0-9a-f]{64}$/;

/**
 * First bytes of the picture and sound formats that browsers show and record (WHATWG MIME Sniffing, sections 6.1 and 6.2).
 * WebM and MP4 hold films as well; here they hold spoken memos.
 */
const signatures: readonly {
  readonly type: string;
  readonly at: number;
  readonly bytes: readonly number[];
}[] = [
  { type: 'image/jpeg', at: 0, bytes: [0xff, 0xd8, 0xff] },
  { type: 'image/png', at: 0, bytes: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
  { type: 'image/webp', at: 8, bytes: [0x57, 0x45, 0x42, 0x50] },
  { type: 'audio/webm', at: 0, bytes: [0x1a, 0x45, 0xdf, 0xa3] },
  { type: 'audio/ogg', at: 0, bytes: [0x4f, 0x67, 0x67, 0x53, 0x00] },
  ...['isom', 'iso5', 'iso6', 'mp41', 'mp42', 'M4A ', 'dash'].map((brand) => ({
    type: 'audio/mp4',
    at: 4,
    bytes: [...Buffer.from(`ftyp${brand}`)],
  })),
];

function folderOf(programme: Programme): string {
  if (programme.folder === null) {
    throw new RecordsError(
      'store',
      'no folder for photos is named for this programme',
      'name one when you open it',
    );
  }
  return join(programme.folder, 'photos');
}

/** The file of a photo: two letters of its hash make the folder, so that none holds too many. */
const fileOf = (programme: Programme, hash: string): string =>
  join(folderOf(programme), hash.slice(0, 2), hash);

/** Media type of a picture or memo by its first bytes; null where it is none that browsers show. */
function mediaTypeOf(bytes: Uint8Array): string | null {
  return (
    signatures.find(({ at, bytes: wanted }) => wanted.every((byte, index) => bytes[at + index] === byte))
      ?.type ?? null
  );
}

/**
 * Keeps a picture or spoken memo as a file under the SHA-256 of its bytes, synced to disk before this returns; the same
 * one is kept once. The record of what it shows is stored apart (kind photos). Refuses what is no JPEG, PNG, WebP, WebM,
 * Ogg or MP4.
 */
export async function keepPhoto(
  programme: Programme,
  bytes: Uint8Array,
): Promise<{ hash: string; mediaType: string; bytes: number }> {
  const mediaType = mediaTypeOf(bytes);
  if (!mediaType) {
    throw new RecordsError(
      'input',
      'this is no picture or memo that a browser can show',
      'save a picture as JPEG, PNG or WebP',
    );
  }
  const hash = createHash('sha256').update(bytes).digest('hex');
  const file = fileOf(programme, hash);
  if (!existsSync(file)) {
    try {
      mkdirSync(dirname(file), { recursive: true });
      const partial = `${file}.part`;
      const handle = await open(partial, 'w');
      await handle.writeFile(bytes);
      await handle.sync();
      await handle.close();
      await rename(partial, file);
    } catch (error) {
      throw inWords(error);
    }
  }
  return { hash, mediaType, bytes: bytes.length };
}

/** The bytes of a kept picture; refuses a file whose content no longer has its hash. */
export async function readPhoto(
  programme: Programme,
  hash: string,
): Promise<{ bytes: Buffer; mediaType: string }> {
  const file = hashShape.test(hash) ? fileOf(programme, hash) : '';
  if (file === '' || !existsSync(file)) throw new RecordsError('absent', 'there is no such photo');
  const bytes = await readFile(file);
  if (createHash('sha256').update(bytes).digest('hex') !== hash) {
    throw new RecordsError('store', 'the file of this photo is damaged', 'put it back from a backup');
  }
  return { bytes, mediaType: mediaTypeOf(bytes) ?? 'application/octet-stream' };
}
