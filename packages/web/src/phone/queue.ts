import type { FactsTaken } from '@keelrow/server/contract';
import { newId } from '../api/uuid7.ts';
import type { KeptFact, NewFact } from './facts.ts';
import { rowOfHeldNote } from './held-note.ts';
import type { PhoneDatabase } from './phone-database.ts';

/** Facts that were confirmed stay this many deep, so that they can be undone. */
const takenKept = 200;

/** What became of taking a fact back: it never left, or a further fact answers it. */
export type TakenBack = { readonly forgotten: true } | { readonly forgotten: false; readonly answer: string };

/**
 * The facts on the phone that the server has not confirmed, in the order in which they were made. Every change is one
 * transaction: a phone that dies at any moment has all of it or none.
 */
export class Queue {
  readonly #db: PhoneDatabase;
  readonly #now: () => Date;

  constructor(db: PhoneDatabase, now: () => Date = () => new Date()) {
    this.#db = db;
    this.#now = now;
  }

  /**
   * Writes facts down; resolves with their ids when they are on the disk. One that corrects a refused fact takes its
   * place. Entering the same id again changes nothing.
   */
  enter(facts: readonly NewFact[]): Promise<readonly string[]> {
    const withIds = facts.map((fact) => ({ ...fact, id: fact.id ?? newId() }));
    return this.#write(async () => {
      for (const fact of withIds) await this.#enterOne(fact);
      return withIds.map(({ id }) => id);
    });
  }

  async #enterOne(fact: NewFact & { readonly id: string }): Promise<void> {
    const { facts } = this.#db;
    if (await facts.where('id').equals(fact.id).count()) return;
    const { kind, id, row, words, typed } = fact;
    let { replaces, former } = fact;
    const before = replaces === undefined ? undefined : await this.#find(replaces);
    if (before?.state === 'refused') {
      await facts.delete(before.order!);
      ({ replaces, former } = before);
    } else if (before?.row) former = before.row;
    else if (replaces !== undefined) former ??= await this.#heldRow(row.plant, replaces);
    await facts.add({
      kind,
      id,
      row,
      words,
      madeAt: this.#now().toISOString(),
      state: 'waiting',
      problem: null,
      sent: false,
      ...(typed === undefined ? {} : { typed }),
      ...(replaces === undefined ? {} : { replaces }),
      ...(former === undefined ? {} : { former }),
    });
  }

  /**
   * Takes a fact back. One that never left the phone is forgotten; any other is answered by a further fact: the value
   * that stood before once more, or a withdrawal where there was none. Throws where a fact of another kind than a note
   * was handed over already.
   */
  takeBack(id: string, reason: string): Promise<TakenBack> {
    const answer = newId();
    return this.#write(async () => {
      const fact = await this.#find(id);
      if (fact && (fact.state === 'refused' || (fact.state === 'waiting' && !fact.sent))) {
        await this.#dropAndRelink(fact);
        return { forgotten: true };
      }
      if (fact && fact.kind !== 'notes') {
        throw new Error(
          'This was handed over already; only notes can be taken back from here. Change it in the office.',
        );
      }
      const base = {
        id: answer,
        madeAt: this.#now().toISOString(),
        state: 'waiting' as const,
        problem: null,
        sent: false,
      };
      await this.#db.facts.add(
        fact?.former
          ? { ...base, kind: 'notes', row: fact.former, replaces: id, words: `Undone: ${fact.words}` }
          : {
              ...base,
              kind: 'withdrawal',
              row: null,
              of: id,
              reason,
              words: `Taken back: ${fact?.words ?? 'a note'}`,
            },
      );
      return { forgotten: false, answer };
    });
  }

  /** Throws a refused fact away for good. */
  throwAway(id: string): Promise<void> {
    return this.#write(async () => {
      const fact = await this.#find(id);
      if (fact?.state === 'refused') await this.#dropAndRelink(fact);
    });
  }

  /** Lets a refused fact be sent once more as it is, last in order. */
  sendAgain(id: string): Promise<void> {
    return this.#write(async () => {
      const fact = await this.#find(id);
      if (fact?.state !== 'refused') return;
      const { order, ...rest } = fact;
      await this.#db.facts.delete(order!);
      await this.#db.facts.add({ ...rest, state: 'waiting', problem: null });
    });
  }

  /**
   * The next facts to send, first made first; one that names another of them waits for what becomes of that one. From
   * here on they count as sent: the server may have them.
   */
  nextToSend(most: number): Promise<readonly KeptFact[]> {
    return this.#write(async () => {
      const { facts } = this.#db;
      const next = upToFirstNamed(await facts.where('state').equals('waiting').limit(most).toArray());
      const unsent = next.filter(({ sent }) => !sent);
      if (unsent.length > 0) await facts.bulkPut(unsent.map((fact) => ({ ...fact, sent: true })));
      return next;
    });
  }

  /** Writes down what the server answered; returns how many facts wait no longer. */
  settle(batch: readonly KeptFact[], { results, upTo }: FactsTaken): Promise<number> {
    const answers = new Map(results.map(({ id, problem }) => [id, problem]));
    return this.#write(async () => {
      const { facts } = this.#db;
      const waiting = (await facts.bulkGet(batch.map(({ order }) => order!))).filter(
        (fact) => fact?.state === 'waiting' && answers.has(fact.id),
      ) as KeptFact[];
      const taken = waiting.filter(({ id }) => answers.get(id) === null);
      await facts.bulkPut(taken.map((fact) => ({ ...fact, state: 'taken', takenUpTo: upTo })));
      for (const fact of waiting) {
        const problem = answers.get(fact.id);
        if (typeof problem === 'string') await this.#settleRefused(fact, problem);
      }
      await this.#forgetLongTaken();
      return waiting.length;
    });
  }

  /**
   * A refused fact that was already corrected or taken back by a later one is not worth showing: what came later
   * stands in its place.
   */
  async #settleRefused(fact: KeptFact, problem: string): Promise<void> {
    const { facts } = this.#db;
    const withdrawals = await facts.where('of').equals(fact.id).toArray();
    const corrections = await facts.where('replaces').equals(fact.id).count();
    await facts.bulkDelete(withdrawals.map(({ order }) => order!));
    if (withdrawals.length + corrections > 0) await this.#dropAndRelink(fact);
    else await facts.put({ ...fact, state: 'refused', problem });
  }

  /** Deletes a fact; what corrected it now corrects what it would have corrected. */
  async #dropAndRelink(gone: KeptFact): Promise<void> {
    const { facts } = this.#db;
    const corrections = await facts.where('replaces').equals(gone.id).toArray();
    for (const { replaces: _gone, former: _too, ...rest } of corrections) {
      await facts.put({
        ...rest,
        ...(gone.replaces === undefined ? {} : { replaces: gone.replaces }),
        ...(gone.former === undefined ? {} : { former: gone.former }),
      });
    }
    await facts.delete(gone.order!);
  }

  async #forgetLongTaken(): Promise<void> {
    const { facts, held } = this.#db;
    const taken = await facts.where('state').equals('taken').primaryKeys();
    const old = taken.slice(0, Math.max(0, taken.length - takenKept));
    if (old.length === 0) return;
    // Holdings that do not tell of it yet need it a little longer; without holdings nobody asks.
    const upTo = (await held.get('holdings'))?.upTo ?? Number.POSITIVE_INFINITY;
    const told = (await facts.bulkGet(old)).filter((fact) => (fact?.takenUpTo ?? 0) <= upTo);
    await facts.bulkDelete(told.map((fact) => fact!.order!));
  }

  #find(id: string): Promise<KeptFact | undefined> {
    return this.#db.facts.where('id').equals(id).first() as Promise<KeptFact | undefined>;
  }

  async #heldRow(plant: unknown, id: string): Promise<NewFact['former']> {
    if (typeof plant !== 'string') return undefined;
    const note = (await this.#db.plants.get(plant))?.notes.find((one) => one.id === id);
    return note && rowOfHeldNote(note);
  }

  #write<Result>(work: () => Promise<Result>): Promise<Result> {
    const { facts, plants, held } = this.#db;
    return this.#db.reliably(() => this.#db.transaction('rw', [facts, plants, held], work));
  }
}

/** Facts up to the first that corrects or takes back one of those before it. */
function upToFirstNamed(facts: readonly KeptFact[]): readonly KeptFact[] {
  const ids = new Set<string>();
  for (const [i, { id, replaces = '', of = '' }] of facts.entries()) {
    if (ids.has(replaces) || ids.has(of)) return facts.slice(0, i);
    ids.add(id);
  }
  return facts;
}
