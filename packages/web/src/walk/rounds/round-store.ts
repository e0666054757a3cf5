import { useSyncExternalStore } from 'react';
import type { Round } from './round.ts';

const kept = 'keelrow-rounds';

/** The rounds of this phone: small, so they lie where writing needs no waiting; notes themselves lie on its disk. */
export class RoundStore {
  readonly #storage: Pick<Storage, 'getItem' | 'setItem'>;
  readonly #listeners = new Set<() => void>();
  #rounds: readonly Round[] | null = null;

  constructor(storage: Pick<Storage, 'getItem' | 'setItem'>) {
    this.#storage = storage;
  }

  readonly all = (): readonly Round[] => {
    this.#rounds ??= readRounds(this.#storage);
    return this.#rounds;
  };

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  add(round: Round): void {
    this.#set([round, ...this.all()]);
  }

  putAway(id: string): void {
    this.#set(this.all().filter((round) => round.id !== id));
  }

  change(id: string, change: (round: Round) => Round): void {
    this.#set(this.all().map((round) => (round.id === id ? change(round) : round)));
  }

  #set(rounds: readonly Round[]): void {
    this.#rounds = rounds;
    try {
      this.#storage.setItem(kept, JSON.stringify(rounds));
    } catch {
      // A browser that keeps nothing: the walk still goes on, and the shell says that notes would be lost.
    }
    for (const listener of this.#listeners) listener();
  }
}

function readRounds(storage: Pick<Storage, 'getItem'>): readonly Round[] {
  try {
    const read: unknown = JSON.parse(storage.getItem(kept) ?? '[]');
    return Array.isArray(read) ? read.filter(isRound) : [];
  } catch {
    return [];
  }
}

/** Rounds of an app of another time may lack a part: those are left out rather than walked wrongly. */
function isRound(read: unknown): read is Round {
  if (!read || typeof read !== 'object') return false;
  const { id, name, beds, traits, direction, since, steps, drafts } = read as Partial<Round>;
  return (
    [id, name, since].every((text) => typeof text === 'string') &&
    [beds, traits, steps, drafts].every(Array.isArray) &&
    typeof direction === 'object' &&
    direction !== null
  );
}

export const rounds = new RoundStore(globalThis.localStorage);

export const useRounds = (): readonly Round[] => useSyncExternalStore(rounds.subscribe, rounds.all);
