import { ApiError, outOfReach } from '../api/api-error.ts';
import type { NewFact, WaitingFact } from './facts.ts';
import { handOverFacts } from './hand-over.ts';
import { fetchHoldings } from './holdings-store.ts';
import type { Line } from './line.ts';
import type { PhoneDatabase } from './phone-database.ts';
import { type AboutPhoto, handOverPhotos, keepPhoto } from './photos.ts';
import { Queue, type TakenBack } from './queue.ts';
import { savedAsCsv, savedAsJson, takeSavedFile } from './save-file.ts';

/** What the world around the phone's core gives it; each has a stand-in where a browser lacks it. */
export interface PhoneWorld {
  readonly now: () => Date;
  /** Runs work while no other window of this browser does work of the same name. */
  readonly alone: (name: string, work: () => Promise<void>) => Promise<void>;
  /** Asks that the browser never clears the phone's disk by itself; null where it cannot be asked. */
  readonly persist: () => Promise<boolean | null>;
  /** Whether it was granted before. */
  readonly persisted: () => Promise<boolean>;
  /** Whether the device knows that it has no network; what is entered then never counts as sent. */
  readonly offLine?: () => boolean;
}

/** How the handing over goes. */
export interface HandingOver {
  readonly busy: boolean;
  /** Why notes are not getting through, in words; null while they are. */
  readonly trouble: string | null;
  /** The server does not know this browser any more. */
  readonly shutOut: boolean;
  /** Whether the browser promised to keep what is on its disk; null while nothing was asked. */
  readonly persisted: boolean | null;
}

const shutOutWords =
  'This device is not let in any more. What waits stays here: ask the owner for a new code, or save it to a file.';

/** The phone's core: what was entered, until the server has it; and what the server said last. */
export class Phone {
  readonly db: PhoneDatabase;
  readonly #queue: Queue;
  readonly #line: Line;
  readonly #world: PhoneWorld;
  readonly #listeners = new Set<() => void>();
  #state: HandingOver = { busy: false, trouble: null, shutOut: false, persisted: null };
  #asked = false;
  #running: Promise<void> | undefined;
  #sendingPhotos: Promise<void> | undefined;

  constructor(db: PhoneDatabase, line: Line, world: PhoneWorld) {
    this.db = db;
    this.#line = line;
    this.#world = world;
    this.#queue = new Queue(db, world.now);
  }

  readonly state = (): HandingOver => this.#state;
  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /**
   * Writes facts down; resolves with their ids when they are on the disk, and then tries to hand them over without
   * being waited for. Throws where they could not be written: then what was typed must stay on the screen.
   */
  async enter(facts: readonly NewFact[]): Promise<readonly string[]> {
    const ids = await this.#queue.enter(facts);
    if (this.#state.persisted === null) void this.#askToPersist();
    void this.handOver();
    return ids;
  }

  /** Undo: forgets what never left, answers what did by a further fact. */
  async withdrawOrForget(id: string, reason: string): Promise<TakenBack> {
    const taken = await this.#queue.takeBack(id, reason);
    void this.handOver();
    return taken;
  }

  /** Throws a refused fact away for good. */
  throwAway(id: string): Promise<void> {
    return this.#queue.throwAway(id);
  }

  /** Sends a refused fact once more as it is. */
  async sendAgain(id: string): Promise<void> {
    await this.#queue.sendAgain(id);
    void this.handOver();
  }

  /** Sends a refused picture once more. */
  async sendPhotoAgain(hash: string): Promise<void> {
    await this.db.reliably(() => this.db.photos.update(hash, { problem: null }));
    void this.handOver();
  }

  /** Throws a refused picture away for good. */
  async throwPhotoAway(hash: string): Promise<void> {
    await this.db.reliably(() => this.db.photos.delete(hash));
  }

  /** Keeps the bytes of a picture or memo until the server has them; a note names it by its hash. */
  async keepPhoto(bytes: ArrayBuffer, about: AboutPhoto): Promise<{ hash: string }> {
    const kept = await keepPhoto(this.db, bytes, about, this.#world.now);
    void this.handOver();
    return kept;
  }

  /** What waits or was refused, first made first. */
  notYetTaken(): Promise<WaitingFact[]> {
    return this.db.reliably(
      () =>
        this.db.facts.where('state').anyOf('waiting', 'refused').sortBy('order') as Promise<WaitingFact[]>,
    );
  }

  /** What waits or was refused as a file: json holds all of it, csv the notes as a table for people and for import. */
  saveToFile(form: 'json' | 'csv' = 'json'): Promise<Blob> {
    return form === 'csv' ? savedAsCsv(this.db) : savedAsJson(this.db, this.#world.now().toISOString());
  }

  /** Takes in what another phone saved, and hands it over. Throws in words where the file is none of Keelrow's. */
  async takeSavedFile(text: string): Promise<{ facts: number; photos: number }> {
    const taken = await takeSavedFile(this.db, text);
    void this.handOver();
    return taken;
  }

  /**
   * Hands over what waits, and pictures beside it. Never throws: why it did not get through is told by the state.
   * Called while it runs, it looks once more before it ends.
   */
  handOver(): Promise<void> {
    this.#asked = true;
    this.#running ??= this.#handOverAsked().finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  async #handOverAsked(): Promise<void> {
    if (this.#world.offLine?.()) {
      this.#asked = false;
      this.#set({ busy: false, trouble: outOfReach().message });
      return;
    }
    this.#set({ busy: true });
    try {
      while (this.#asked) {
        this.#asked = false;
        await this.#world.alone('keelrow hands over facts', () =>
          handOverFacts(this.#queue, this.#line, this.#world.now),
        );
      }
      this.#set({ busy: false, trouble: null, shutOut: false });
      void this.#handOverPhotos();
    } catch (error) {
      this.#asked = false;
      this.#set({ busy: false, ...troubleOf(error) });
    }
  }

  /** Large and slow: they never hold up notes. */
  #handOverPhotos(): Promise<void> {
    this.#sendingPhotos ??= this.#world
      .alone('keelrow hands over pictures', () => handOverPhotos(this.db, this.#line))
      .catch((error: unknown) => this.#set(troubleOf(error)))
      .finally(() => {
        this.#sendingPhotos = undefined;
      });
    return this.#sendingPhotos;
  }

  /** Resolves when no picture is under way. */
  async photosAtRest(): Promise<void> {
    await this.#sendingPhotos;
  }

  /** Fetches what changed in the garden. Throws ApiError where it cannot; what the phone holds stays. */
  async fetchHoldings(): Promise<void> {
    await fetchHoldings(this.db, this.#line, this.#world.now);
  }

  /** Finds out whether the browser has promised to keep the disk on an earlier day. */
  async learnPersisted(): Promise<void> {
    if (await this.#world.persisted().catch(() => false)) this.#set({ persisted: true });
  }

  async #askToPersist(): Promise<void> {
    this.#set({ persisted: await this.#world.persist().catch(() => null) });
  }

  #set(change: Partial<HandingOver>): void {
    const next = { ...this.#state, ...change };
    const keys = Object.keys(next) as (keyof HandingOver)[];
    if (keys.every((key) => next[key] === this.#state[key])) return;
    this.#state = next;
    for (const listener of this.#listeners) listener();
  }
}

function troubleOf(error: unknown): Pick<HandingOver, 'trouble' | 'shutOut'> {
  if (error instanceof ApiError && error.status === 401) return { trouble: shutOutWords, shutOut: true };
  const trouble = error instanceof Error ? error.message : 'Handing over failed without a reason.';
  return { trouble, shutOut: false };
}
