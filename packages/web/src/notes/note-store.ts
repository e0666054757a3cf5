import type { NotesStored, NoteToStore } from '@keelrow/server/contract';
import { useSyncExternalStore } from 'react';
import { ApiError, wordsOf } from '../api/api-error.ts';
import { part, send } from '../api/talk.ts';
import { newId } from '../api/uuid7.ts';
import {
  type CellStatus,
  type Entering,
  emptyGrid,
  entered,
  type GridState,
  marked,
  waitingNotes,
  withoutRefused,
} from './grid-state.ts';
import { undone } from './undo.ts';

type Send = (notes: readonly NoteToStore[]) => Promise<NotesStored>;
type Withdraw = (id: string) => Promise<void>;

/** Notes are handed over in batches: the first at once, the others as soon as the one before is answered. */
const batch = 500;
const pauseAfterSilence = 5_000;

/**
 * Keeps what was entered until the server has it, outside of any screen, so that leaving a screen loses nothing.
 * Each batch waits for the answer to the one before: a correction never overtakes the note that it corrects.
 */
export class NoteStore {
  private state: GridState = emptyGrid;
  private trouble: string | null = null;
  private busy = false;
  private readonly toWithdraw: string[] = [];
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly listeners = new Set<() => void>();
  private readonly sendNotes: Send;
  private readonly withdrawNote: Withdraw;

  constructor(sendNotes: Send, withdrawNote: Withdraw) {
    this.sendNotes = sendNotes;
    this.withdrawNote = withdrawNote;
  }

  readonly read = (): GridState => this.state;
  /** Why notes are not getting through; null while they are. */
  readonly readTrouble = (): string | null => this.trouble;
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  enter(entries: readonly Entering[]): void {
    if (entries.length === 0) return;
    this.set(entered(this.state, entries));
    void this.handOver();
  }

  undo(): void {
    const { state, withdraw } = undone(this.state, (note) => ({ ...note, id: newId() }));
    this.set(state);
    this.toWithdraw.push(...withdraw);
    void this.handOver();
  }

  /** Sends what waits; while nothing gets through it tries again by itself. */
  async handOver(): Promise<void> {
    if (this.busy) return;
    clearTimeout(this.timer);
    this.busy = true;
    try {
      for (let notes = this.next(); notes.length > 0; notes = this.next()) await this.sendBatch(notes);
      // Only now: a note that is taken back may have been among those on their way.
      for (let id = this.toWithdraw[0]; id !== undefined; id = this.toWithdraw[0]) {
        await this.withdrawNote(id);
        this.toWithdraw.shift();
      }
      this.set(this.state, null);
    } catch (error) {
      this.set(this.state, wordsOf(error).problem);
      this.timer = setTimeout(() => void this.handOver(), pauseAfterSilence);
    } finally {
      this.busy = false;
    }
  }

  private next(): NoteToStore[] {
    return waitingNotes(this.state).slice(0, batch);
  }

  private async sendBatch(notes: readonly NoteToStore[]): Promise<void> {
    this.mark(notes, 'sending', null);
    try {
      const { results } = await this.sendNotes(notes);
      const problems = new Map(results.map(({ id, problem }) => [id, problem]));
      const refused = notes.filter(({ id }) => (problems.get(id) ?? null) !== null);
      this.set(
        marked(
          this.state,
          new Map(
            results.map(({ id, problem }) => [
              id,
              { status: problem === null ? 'kept' : 'refused', problem },
            ]),
          ),
        ),
      );
      this.set(withoutRefused(this.state, refused));
    } catch (error) {
      if (error instanceof ApiError && error.status >= 400 && error.status < 500 && error.status !== 401) {
        this.mark(notes, 'refused', error.message);
        this.set(withoutRefused(this.state, notes));
        return;
      }
      this.mark(notes, 'waiting', null);
      throw error;
    }
  }

  private mark(notes: readonly NoteToStore[], status: CellStatus, problem: string | null): void {
    this.set(marked(this.state, new Map(notes.map(({ id }) => [id, { status, problem }]))));
  }

  private set(state: GridState, trouble: string | null = this.trouble): void {
    if (state === this.state && trouble === this.trouble) return;
    this.state = state;
    this.trouble = trouble;
    for (const listener of this.listeners) listener();
  }
}

export const noteStore = new NoteStore(
  (notes) => send<NotesStored>('POST', 'notes', { notes }),
  (id) => send('POST', `records/notes/${part(id)}/withdraw`, { reason: 'undone while taking notes' }),
);

export const useNotesEntered = (): GridState => useSyncExternalStore(noteStore.subscribe, noteStore.read);
export const useNotesTrouble = (): string | null =>
  useSyncExternalStore(noteStore.subscribe, noteStore.readTrouble);
