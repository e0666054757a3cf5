import { createWriteStream, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { v7 as newId } from 'uuid';
import { RefusedError } from './refusals.ts';

export interface Uploaded {
  readonly id: string;
  readonly path: string;
  readonly name: string;
  readonly bytes: number;
}

/** Files waiting to be taken in; the oldest is thrown away first, all of them when the server ends. */
const keptUploads = 20;

export class Uploads {
  readonly #folder = mkdtempSync(join(tmpdir(), 'keelrow-uploads-'));
  readonly #kept = new Map<string, Uploaded>();

  /** Keeps a file under a name of our own; its own name is kept to be shown and to tell its kind. */
  async keep(stream: Readable, name: string): Promise<Uploaded> {
    const id = newId();
    const plainName = basename(name.replaceAll('\\', '/')).slice(-120) || 'file';
    const extension = /\.[a-z0-9]{1,5}$/i.exec(plainName)?.[0] ?? '';
    const path = join(this.#folder, id + extension);
    const file = createWriteStream(path);
    await pipeline(stream, file);
    const uploaded = { id, path, name: plainName, bytes: file.bytesWritten };
    this.#kept.set(id, uploaded);
    if (this.#kept.size > keptUploads) this.drop(this.#kept.keys().next().value!);
    return uploaded;
  }

  get(id: string): Uploaded {
    const uploaded = this.#kept.get(id);
    if (!uploaded)
      throw new RefusedError(404, { problem: 'this file is no longer here', remedy: 'choose it again' });
    return uploaded;
  }

  drop(id: string): void {
    const uploaded = this.#kept.get(id);
    if (uploaded) rmSync(uploaded.path, { force: true });
    this.#kept.delete(id);
  }

  close(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }
}
