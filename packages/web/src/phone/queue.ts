import type { FactsTaken } from '@keelrow/server/contract';
import { newId } from '../api/uuid7.ts';
import type { Former, KeptFact, NewFact } from './facts.ts';
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
    const { kind, id, words, typed } = fact;
    const row = await this.#signed(fact);
    const named = fact.replaces === undefined ? undefined : await this.#standsFor(fact.replaces);
    let replaces = named?.id ?? fact.replaces;
    let former = fact.former && replaces !== undefined ? { id: replaces, row: fact.former } : undefined;
    if (named?.state === 'refused') {
      await facts.delete(named.order!);
      ({ replaces, former } = named);
    } else if (named) former = formerOf(named);
    else if (replaces !== undefined) former ??= await this.#heldFormer(row.plant, replaces);
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

  /** The row with who saw it, so that a phone that changes hands gives no note of one person to another. */
  async #signed({ kind, row }: NewFact): Promise<NewFact['row']> {
    if (row.by != null || kind === 'identities' || kind === 'moves') return row;
    const person = (await this.#db.held.get('holdings'))?.person;
    return person && person.id !== null ? { ...row, by: person.code } : row;
  }

  /**
   * Takes a fact back. One that never left the phone is forgotten; any other is answered by a further fact: the value
   * that stood before once more, or a withdrawal where there was none. Throws where a fact of another kind than a note
   * was handed over already.
   */
  takeBack(id: string, reason: string): Promise<TakenBack> {
    const answer = newId();
    return this.#write(async () => {
      const fact = await this.#standsFor(id);
      const neverLeft = fact && (fact.state === 'refused' || (fact.state === 'waiting' && !fact.sent));
      if (neverLeft && fact.restates === undefined) {
        await this.#dropAndRelink(fact);
        return { forgotten: true };
      }
      if (fact && fact.kind !== 'notes') {
        throw new Error(
          'This was handed over already; only notes can be taken back from here. Change it in the office.',
        );
      }
      // What undo itself made and what never left gives way to a further answer to the note that it answered.
      if (neverLeft) await this.#db.facts.delete(fact.order!);
      const target = neverLeft ? fact.replaces! : (fact?.id ?? id);
      await this.#db.facts.add({
        id: answer,
        madeAt: this.#now().toISOString(),
        state: 'waiting',
        problem: null,
        sent: false,
        ...(fact?.former
          ? restating(fact.former, target, fact.words)
          : {
              kind: 'withdrawal',
              row: null,
              of: target,
              reason,
              words: `Taken back: ${fact?.words ?? 'a note'}`,
            }),
      });
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
    if (withdrawals.length + corrections > 0) {
      await this.#dropAndRelink(fact);
      await this.#forgetAsFormer(fact.id);
    } else await facts.put({ ...fact, state: 'refused', problem });
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

  /** A note that was refused is nothing that undo could put back. */
  async #forgetAsFormer(id: string): Promise<void> {
    const { facts } = this.#db;
    const naming = await facts.filter(({ former }) => names(former, id)).toArray();
    await facts.bulkPut(
      naming.map(({ former, ...rest }) => {
        const left = without(former, id);
        return left ? { ...rest, former: left } : rest;
      }),
    );
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

  /** The fact that now says what the fact of this id said: itself, or what undo made of it. */
  async #standsFor(id: string): Promise<KeptFact | undefined> {
    const again = await this.#db.facts.where('restates').equals(id).last();
    return again ?? this.#find(id);
  }

  async #heldFormer(plant: unknown, id: string): Promise<Former | undefined> {
    if (typeof plant !== 'string') return undefined;
    const note = (await this.#db.plants.get(plant))?.notes.find((one) => one.id === id);
    return note && { id, row: rowOfHeldNote(note) };
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

/** How far back undo reaches on one subject. */
const deepestFormer = 10;

function formerOf({ id, row, former, restates }: KeptFact): Former | undefined {
  if (!row) return undefined;
  return { id: restates ?? id, row, ...(former ? { before: cutAt(former, deepestFormer) } : {}) };
}

const cutAt = ({ id, row, before }: Former, depth: number): Former => ({
  id,
  row,
  ...(before && depth > 1 ? { before: cutAt(before, depth - 1) } : {}),
});

const names = (former: Former | undefined, id: string): boolean =>
  former !== undefined && (former.id === id || names(former.before, id));

function without(former: Former | undefined, id: string): Former | undefined {
  if (!former || former.id === id) return former?.before;
  const before = without(former.before, id);
  return { id: former.id, row: former.row, ...(before ? { before } : {}) };
}

/** A former note once more, in the place of the target. */
const restating = (
  { id, row, before }: Former,
  target: string,
  words: string,
): Pick<KeptFact, 'kind' | 'row' | 'replaces' | 'restates' | 'former' | 'words'> => ({
  kind: 'notes',
  row,
  replaces: target,
  restates: id,
  words: `Undone: ${words}`,
  ...(before ? { former: before } : {}),
});
