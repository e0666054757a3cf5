import { AsyncLocalStorage } from 'node:async_hooks';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { lineToServer } from '../../packages/web/src/phone/line.ts';
import { Phone } from '../../packages/web/src/phone/phone.ts';
import { PhoneDatabase } from '../../packages/web/src/phone/phone-database.ts';

/**
 * Where the network or the app ends a request. before: it never leaves; after: it is dealt with, but no answer comes;
 * half: the answer is cut in two; death: it leaves, and the app is no more; kill: the server dies meanwhile.
 */
export type Fault = 'none' | 'before' | 'after' | 'half' | 'death' | 'kill';

/** What a simulated phone is connected to. */
export interface Network {
  readonly address: string;
  kill(): Promise<void>;
}

interface Connection {
  readonly network: Network;
  fault: Fault;
  /** Called when the last request of a phone that dies was dealt with. */
  readonly died: () => void;
}

let kills = 0;
const connected = new AsyncLocalStorage<Connection>();
const never = new Promise<never>(() => {});
const realFetch = globalThis.fetch;

/** Node's fetch in the place of a browser's: addresses without a host, and the faults of the phone that asks. */
export function connectPhones(): () => void {
  globalThis.fetch = async (url, init) => {
    const connection = connected.getStore();
    if (!connection || typeof url !== 'string') return realFetch(url, init);
    const { network, fault } = connection;
    // Each fault hits one request; a phone that dies asks no more.
    if (fault !== 'death') connection.fault = 'none';
    if (fault === 'before') throw new TypeError('no network');
    const asked = realFetch(network.address + url, init);
    if (fault === 'kill') {
      kills += 1;
      // At another moment of its work each time, in milliseconds.
      setTimeout(() => void network.kill(), (kills * 7) % 16);
      return asked;
    }
    if (fault === 'death') {
      await asked.catch(() => undefined);
      connection.died();
      return never;
    }
    const answer = await asked;
    if (fault === 'none') return answer;
    const text = await answer.text();
    if (fault === 'after') throw new TypeError('connection lost');
    return new Response(text.slice(0, text.length / 2), { status: answer.status });
  };
  return () => {
    globalThis.fetch = realFetch;
  };
}

/** A phone with a disk that outlives the app and a clock that may be wrong. */
export class SimulatedPhone {
  readonly #disk = new IDBFactory();
  readonly #network: Network;
  #daysOff = 0;
  app: Phone;

  constructor(network: Network) {
    this.#network = network;
    this.app = this.#newApp();
  }

  #newApp(): Phone {
    const db = new PhoneDatabase('keelrow-phone', { indexedDB: this.#disk, IDBKeyRange });
    return new Phone(db, lineToServer, {
      now: () => new Date(Date.now() + this.#daysOff * 86_400_000),
      alone: (_name, work) => work(),
      persist: async () => true,
      persisted: async () => true,
    });
  }

  /** The app ends without warning and is opened again; what it had in hand is gone, its disk stays. */
  restart(): void {
    this.app = this.#newApp();
  }

  setClock(daysOff: number): void {
    this.#daysOff = daysOff;
  }

  /** Does something while the network has this fault. A phone that dies is opened again afterwards. */
  async with<Result>(fault: Fault, work: (app: Phone) => Promise<Result>): Promise<Result | null> {
    let died = (): void => {};
    const death = new Promise<null>((resolve) => {
      died = () => resolve(null);
    });
    const connection: Connection = { network: this.#network, fault, died };
    const working = connected.run(connection, () => work(this.app));
    if (fault !== 'death') return working;
    // Work that waits for an answer would wait for ever.
    const done = await Promise.race([working, death]);
    this.restart();
    return done;
  }

  /** Two windows of the same browser hand over at once, without a lock between them. */
  async handOverTwice(): Promise<void> {
    const other = this.#newApp();
    await connected.run({ network: this.#network, fault: 'none', died: () => {} }, () =>
      Promise.all([this.app.handOver(), other.handOver()]),
    );
    other.db.close();
  }
}
