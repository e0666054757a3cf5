import type { HeldNote, HeldPlant, Holdings } from '@keelrow/server/contract';
import { Dexie, type DexieOptions, type Table } from 'dexie';
import type { KeptFact } from './facts.ts';

/** A plant with its standing notes in one row: a whole garden is read in one go. */
export interface PlantRow extends HeldPlant {
  readonly notes: readonly HeldNote[];
}

/** The small lists of the holdings, and how far they reach. */
export interface HoldingsRow extends Omit<Holdings, 'whole' | 'plants' | 'notes' | 'gone'> {
  readonly key: 'holdings';
  /** By the phone's clock, ISO 8601. */
  readonly fetchedAt: string;
}

/** A photo or a spoken memo until the server confirms its hash. Bytes, not a blob: WebKit loses blobs. */
export interface PhotoRow {
  readonly hash: string;
  readonly bytes: ArrayBuffer;
  readonly mediaType: string;
  readonly words: string;
  readonly madeAt: string;
  /** Why the server would not take it. */
  readonly problem: string | null;
}

/** What the phone has on its disk. */
export class PhoneDatabase extends Dexie {
  readonly facts!: Table<KeptFact, number, KeptFact>;
  readonly photos!: Table<PhotoRow, string>;
  readonly plants!: Table<PlantRow, string>;
  readonly held!: Table<HoldingsRow, 'holdings'>;

  constructor(name = 'keelrow-phone', options: DexieOptions = {}) {
    super(name, options);
    this.version(1).stores({
      facts: '++order, &id, state, replaces, of, restates',
      photos: 'hash',
      plants: 'id',
      held: 'key',
    });
  }

  /**
   * Does work on the database; where the connection was dropped, as WebKit does to pages in the background, opens it
   * again and tries once more. Throws what the second try throws; a full disk is told in words.
   */
  async reliably<Result>(work: () => PromiseLike<Result>): Promise<Result> {
    try {
      return await work();
    } catch (error) {
      if (!isDropped(error)) throw inWords(error);
      this.close({ disableAutoOpen: false });
      await this.open();
      return await Promise.resolve(work()).catch((second: unknown) => {
        throw inWords(second);
      });
    }
  }
}

const dropped = new Set([
  'InvalidStateError',
  'DatabaseClosedError',
  'UnknownError',
  'AbortError',
  'OpenFailedError',
]);

/** Whether an error, or the one behind it, tells of a lost connection and not of what was written. */
function isDropped(error: unknown): boolean {
  if (isFull(error)) return false;
  const { name, inner, message } = (error ?? {}) as { name?: string; inner?: unknown; message?: string };
  if (name !== undefined && dropped.has(name)) return true;
  if (/connection .*(lost|clos)/i.test(message ?? '')) return true;
  return inner !== undefined && inner !== error && isDropped(inner);
}

function isFull(error: unknown): boolean {
  const { name, inner } = (error ?? {}) as { name?: string; inner?: unknown };
  return name === 'QuotaExceededError' || (inner !== undefined && inner !== error && isFull(inner));
}

const inWords = (error: unknown): unknown =>
  isFull(error)
    ? new Error(
        'There is no room left on this device, so this was not kept. Hand over what waits, or free some room, and enter it again.',
        { cause: error },
      )
    : error;
