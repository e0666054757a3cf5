import { open, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { TableError } from './table-error.ts';
import type { TableSource } from './table-types.ts';

/** A file's bytes, readable from the top as often as needed. */
export interface ByteSource {
  readonly name: string;
  readonly size: number;
  readonly path: string | undefined;
  readonly bytes: Uint8Array | undefined;
  /** The first bytes, `length` at most. */
  head(length: number): Promise<Uint8Array>;
  chunks(): AsyncIterable<Uint8Array>;
}

const chunkSize = 1 << 18;

/** Opens a source; a file that is not there or may not be read is a TableError. */
export async function openBytes(source: TableSource): Promise<ByteSource> {
  return 'path' in source ? fileBytes(source.path, source.name) : memoryBytes(source.name, source.bytes);
}

function memoryBytes(name: string, bytes: Uint8Array): ByteSource {
  return {
    name,
    size: bytes.length,
    path: undefined,
    bytes,
    head: async (length) => bytes.subarray(0, length),
    async *chunks() {
      for (let at = 0; at < bytes.length; at += chunkSize) yield bytes.subarray(at, at + chunkSize);
    },
  };
}

async function fileBytes(path: string, name = basename(path)): Promise<ByteSource> {
  const facts = await withReasons(name, () => stat(path));
  if (!facts.isFile()) {
    throw new TableError(
      'file-unreadable',
      `${name} is not a file.`,
      'Name the file itself, not its folder.',
    );
  }
  return {
    name,
    size: facts.size,
    path,
    bytes: undefined,
    async head(length) {
      const file = await withReasons(name, () => open(path, 'r'));
      try {
        const buffer = Buffer.alloc(Math.min(length, facts.size));
        const { bytesRead } = await withReasons(name, () => file.read(buffer, 0, buffer.length, 0));
        return buffer.subarray(0, bytesRead);
      } finally {
        await file.close();
      }
    },
    async *chunks() {
      const file = await withReasons(name, () => open(path, 'r'));
      try {
        for (;;) {
          const buffer = Buffer.allocUnsafe(chunkSize);
          const { bytesRead } = await withReasons(name, () => file.read(buffer, 0, chunkSize));
          if (bytesRead === 0) return;
          yield buffer.subarray(0, bytesRead);
        }
      } finally {
        await file.close();
      }
    },
  };
}

async function withReasons<T>(name: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (code === 'ENOENT') {
      throw new TableError('file-unreadable', `There is no file ${name}.`, 'Check the name and the folder.');
    }
    if (code === 'EACCES' || code === 'EPERM') {
      throw new TableError(
        'file-unreadable',
        `${name} may not be read by this user.`,
        "Change the file's permissions.",
      );
    }
    const reason = error instanceof Error ? error.message : String(error);
    throw new TableError(
      'file-unreadable',
      `${name} could not be read (${reason}).`,
      'Copy it to this computer and try again.',
    );
  }
}
