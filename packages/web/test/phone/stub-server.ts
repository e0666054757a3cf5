import type { FactsTaken, FactsToTake, FactToTake, Holdings } from '@keelrow/server/contract';
import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { ApiError, outOfReach } from '../../src/api/api-error.ts';
import type { Line } from '../../src/phone/line.ts';
import { Phone } from '../../src/phone/phone.ts';
import { PhoneDatabase } from '../../src/phone/phone-database.ts';

/** A server that keeps what it is sent by the rules of the contract, or does as a test tells it. */
export class StubServer implements Line {
  readonly kept = new Map<string, FactToTake>();
  readonly photos = new Map<string, ArrayBuffer>();
  readonly requests: FactsToTake[] = [];
  readonly wanted: (number | null)[] = [];
  answer: Holdings | null = null;
  upTo = 0;
  /** Why a fact is refused; null where it is taken. */
  refuse: (fact: FactToTake) => string | null = () => null;
  /** Called before or after a request is dealt with; throwing there cuts it off. */
  before: () => void | Promise<void> = () => {};
  after: () => void | Promise<void> = () => {};

  async takeFacts(sent: FactsToTake): Promise<FactsTaken> {
    this.requests.push(structuredClone(sent));
    await this.before();
    const results = sent.facts.map((fact) => ({ id: fact.id, problem: this.#take(fact) }));
    this.upTo += 1;
    await this.after();
    return { results, upTo: this.upTo };
  }

  #take(fact: FactToTake): string | null {
    if (this.kept.has(fact.id)) return null;
    const named = fact.kind === 'withdrawal' ? fact.of.id : fact.replaces;
    const problem =
      named !== undefined && !this.kept.has(named) ? 'there is no such note' : this.refuse(fact);
    if (problem === null) this.kept.set(fact.id, fact);
    return problem;
  }

  async takePhoto(hash: string, bytes: ArrayBuffer): Promise<{ hash: string }> {
    await this.before();
    this.photos.set(hash, bytes);
    await this.after();
    return { hash };
  }

  async holdings(since: number | null): Promise<Holdings> {
    this.wanted.push(since);
    if (!this.answer) throw outOfReach();
    return this.answer;
  }
}

export const shutOut = (): ApiError => new ApiError(401, { problem: 'nobody is signed in' });

/** A phone with a disk of its own, which outlives it. */
export function newPhone(
  server: Line,
  disk = new IDBFactory(),
  offLine: () => boolean = () => false,
): { phone: Phone; disk: IDBFactory } {
  const db = new PhoneDatabase('keelrow-phone', { indexedDB: disk, IDBKeyRange });
  const phone = new Phone(db, server, {
    now: () => new Date('2031-05-20T08:40:00Z'),
    alone: (_name, work) => work(),
    persist: async () => true,
    persisted: async () => false,
    offLine,
  });
  return { phone, disk };
}
