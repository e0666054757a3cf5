import type { NoteToStore } from '@keelrow/server/contract';
import { liveQuery } from 'dexie';
import { useSyncExternalStore } from 'react';
import { wordsOf } from '../api/api-error.ts';
import type { KeptFact, NewFact } from '../phone/facts.ts';
import type { Phone } from '../phone/phone.ts';
import { phone } from '../phone/store.ts';
import {
  cellKey,
  type Entering,
  emptyGrid,
  entered,
  followed,
  type GridState,
  notWritten,
  statusOf,
} from './grid-state.ts';
import { toTakeBack, undone } from './undo.ts';

/**
 * What was entered into the grid, outside of any screen. Notes go into the phone's queue, which keeps them on the disk
 * until the server has them; the boxes follow that queue, and after a reload are filled from it again.
 */
export class NoteStore {
  #state: GridState = emptyGrid;
  readonly #known = new Set<string>();
  #onTheirWay: ReadonlyMap<string, KeptFact> = new Map();
  readonly #listeners = new Set<() => void>();
  readonly #phone: Pick<Phone, 'enter' | 'withdrawOrForget'>;
  /** Undoing and entering come one after the other, as they were asked for. */
  #work: Promise<void> = Promise.resolve();

  constructor(on: Pick<Phone, 'enter' | 'withdrawOrForget'>) {
    this.#phone = on;
  }

  readonly read = (): GridState => this.#state;
  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** Shows entries in their boxes at once and writes them down; one that cannot be written stays, with the reason. */
  enter(entries: readonly Entering[]): void {
    if (entries.length === 0) return;
    const state = entered(this.#state, entries);
    const facts = entries.flatMap((entry) => {
      const note = state.cells.get(entry.key)?.note;
      return note && entry.note?.id === note.id ? [factOf(note, entry)] : [];
    });
    this.#set(state);
    const ids = new Set(facts.map(({ id }) => id));
    this.#then(async () => {
      try {
        await this.#phone.enter(facts);
        for (const id of ids) this.#known.add(id);
      } catch (error) {
        this.#set(notWritten(this.#state, ids, wordsOf(error).problem));
      }
    });
  }

  /** Takes the last step back. */
  undo(): void {
    this.#then(async () => {
      const step = this.#state.past.at(-1);
      if (!step) return;
      const taken = new Map<string, Awaited<ReturnType<Phone['withdrawOrForget']>>>();
      for (const [key, id] of toTakeBack(this.#state))
        taken.set(key, await this.#phone.withdrawOrForget(id, 'undone while taking notes'));
      this.#set(followed(undone(this.#state, step, taken), this.#onTheirWay, this.#known));
    });
  }

  /** Learns where the notes of the boxes are on their way; those of an earlier visit get their boxes back. */
  follow(facts: readonly KeptFact[]): void {
    const cells = new Map(this.#state.cells);
    for (const fact of facts) {
      const note = fact.state === 'taken' ? null : noteOf(fact);
      if (!note || this.#known.has(fact.id)) continue;
      const key = cellKey(note.plant, note.trait, Number(note.on.slice(0, 4)));
      if (this.#state.cells.has(key)) continue;
      const { typed = '', problem } = fact;
      cells.set(key, { typed, status: statusOf(fact), problem, note, before: null, first: null });
    }
    this.#onTheirWay = new Map(facts.map((fact) => [fact.id, fact]));
    this.#set(followed({ ...this.#state, cells }, this.#onTheirWay, this.#known));
    for (const { id } of facts) this.#known.add(id);
  }

  /** Resolves when all that was asked for is written down. */
  atRest(): Promise<void> {
    return this.#work;
  }

  #then(work: () => Promise<void>): void {
    this.#work = this.#work.then(work).catch(() => undefined);
  }

  #set(state: GridState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}

function factOf(
  { id, replaces, ...row }: NoteToStore,
  { typed, words, first }: Entering,
): NewFact & { readonly id: string } {
  const { id: _stored, ...former } = first?.note ?? { id: '' };
  return {
    kind: 'notes',
    id,
    row,
    words,
    typed,
    ...(replaces === undefined ? {} : { replaces }),
    ...(first && first.id === replaces ? { former } : {}),
  };
}

/** The note of a fact that was typed into a box of the grid. */
function noteOf({ id, kind, row, typed, replaces }: KeptFact): NoteToStore | null {
  if (kind !== 'notes' || !row || typed === undefined) return null;
  return { ...(row as unknown as NoteToStore), id, ...(replaces === undefined ? {} : { replaces }) };
}

export const noteStore = new NoteStore(phone);

let follows = false;

function subscribe(listener: () => void): () => void {
  if (!follows) {
    // For as long as the window is open: what comes back refused shows in its box however late.
    follows = true;
    liveQuery(() => phone.db.facts.orderBy('order').toArray()).subscribe({
      next: (facts) => noteStore.follow(facts),
      error: () => undefined,
    });
  }
  return noteStore.subscribe(listener);
}

export const useNotesEntered = (): GridState => useSyncExternalStore(subscribe, noteStore.read);
