import { crc32 } from 'node:zlib';
import { type Entry, fromBufferPromise, openPromise, type ZipFile } from 'yauzl';
import type { ByteSource } from '../byte-source.ts';
import { limits } from '../limits.ts';
import { TableError } from '../table-error.ts';

/** The files inside a zip archive. Close it after use. */
export class Archive {
  readonly name: string;
  readonly #zip: ZipFile;
  readonly #entries = new Map<string, Entry>();

  private constructor(name: string, zip: ZipFile) {
    this.name = name;
    this.#zip = zip;
  }

  static async open(source: ByteSource): Promise<Archive> {
    return withDamageTold(source.name, async () => {
      const options = { lazyEntries: true, autoClose: false, validateEntrySizes: true };
      const zip =
        source.path === undefined
          ? await fromBufferPromise(Buffer.from(source.bytes!), options)
          : await openPromise(source.path, options);
      const archive = new Archive(source.name, zip);
      try {
        await archive.#list();
      } catch (error) {
        archive.close();
        throw error;
      }
      return archive;
    });
  }

  async #list(): Promise<void> {
    if (this.#zip.entryCount > limits.archiveEntries) {
      throw tooLarge(
        `${this.name} holds ${this.#zip.entryCount} files; ${limits.archiveEntries} are the limit.`,
      );
    }
    for await (const entry of this.#zip.eachEntry()) this.#entries.set(entry.fileName.toLowerCase(), entry);
  }

  has(part: string): boolean {
    return this.#entries.has(part.toLowerCase());
  }

  /**
   * The bytes of one file, unpacked as they are read and proved by its checksum.
   * @param part its path in the archive, in upper or lower case
   * @param most bytes that it may have when unpacked
   */
  async *read(part: string, most: number): AsyncGenerator<Uint8Array> {
    const entry = this.#entries.get(part.toLowerCase());
    if (!entry) throw damaged(this.name, `the part ${part} is missing`);
    this.#refuseBomb(entry, most);
    let sum = 0;
    try {
      const stream = await this.#zip.openReadStreamPromise(entry);
      for await (const chunk of stream as AsyncIterable<Buffer>) {
        sum = crc32(chunk, sum);
        yield chunk;
      }
    } catch (error) {
      throw asDamage(this.name, error);
    }
    if (sum !== entry.crc32) throw damaged(this.name, `the checksum of ${part} is wrong`);
  }

  /** The archive's own figures can be trusted here: yauzl stops where a file unpacks to more than they say. */
  #refuseBomb({ fileName, uncompressedSize, compressedSize }: Entry, most: number): void {
    if (uncompressedSize > most) {
      throw tooLarge(
        `${fileName} in ${this.name} unpacks to ${megabytes(uncompressedSize)}; ${megabytes(most)} are the limit.`,
      );
    }
    if (uncompressedSize > limits.ratioFreeBytes && uncompressedSize > limits.ratio * compressedSize) {
      throw tooLarge(
        `${fileName} in ${this.name} unpacks to more than ${limits.ratio} times its size, as no spreadsheet does.`,
      );
    }
  }

  close(): void {
    this.#zip.close();
  }
}

const megabytes = (bytes: number) => `${Math.ceil(bytes / 1e6)} MB`;

function tooLarge(problem: string): TableError {
  return new TableError('too-large', problem, 'Save the table as CSV in UTF-8, or split it.');
}

export function damaged(name: string, reason: string): TableError {
  return new TableError(
    'damaged',
    `${name} is damaged (${reason}).`,
    'Copy it once more from where it came, or open it in a spreadsheet program and save it anew.',
  );
}

/** Faults found by the libraries for zip and XML, as one kind of error. A fault of the program is thrown on as it is. */
export function asDamage(name: string, error: unknown): TableError {
  if (error instanceof TableError) return error;
  if (error instanceof TypeError || error instanceof ReferenceError) throw error;
  const reason = error instanceof Error ? error.message : String(error);
  return /encrypted/i.test(reason)
    ? new TableError(
        'not-a-table',
        `${name} is locked with a password.`,
        'Open it, take the password off, and save it again.',
      )
    : damaged(name, reason.replace(/\s+/g, ' ').slice(0, 120));
}

async function withDamageTold<T>(name: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    throw asDamage(name, error);
  }
}
