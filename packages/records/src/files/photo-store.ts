import { createHash } from 'node:crypto';
import { existsSync, mkdirSync } from 'node:fs';
import { open, readFile, rename } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Programme } from '../database/programme.ts';
import { inWords } from '../database/trouble.ts';
import { RecordsError } from '../errors.ts';

const hashShape = /^[0-9a-f]{64}$/;

/** First bytes of the picture formats that browsers show (WHATWG MIME Sniffing, section 6.1). */
const signatures: readonly {
  readonly type: string;
  readonly at: number;
  readonly bytes: readonly number[];
}[] = [
  { type: 'image/jpeg', at: 0, bytes: [0xff, 0xd8, 0xff] },
  { type: 'image/png', at: 0, bytes: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
  { type: 'image/webp', at: 8, bytes: [0x57, 0x45, 0x42, 0x50] },
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

/** Media type of a picture by its first bytes; null where it is none that browsers show. */
function mediaTypeOf(bytes: Uint8Array): string | null {
  return (
    signatures.find(({ at, bytes: wanted }) => wanted.every((byte, index) => bytes[at + index] === byte))
      ?.type ?? null
  );
}

/**
 * Keeps a picture as a file under the SHA-256 of its bytes, synced to disk before this returns; the same picture is
 * kept once. The record of what it shows is stored apart (kind photos). Refuses what is no JPEG, PNG or WebP.
 */
export async function keepPhoto(
  programme: Programme,
  bytes: Uint8Array,
): Promise<{ hash: string; mediaType: string; bytes: number }> {
  const mediaType = mediaTypeOf(bytes);
  if (!mediaType) {
    throw new RecordsError(
      'input',
      'this is no picture that a browser can show',
      'save it as JPEG, PNG or WebP',
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
