import type { NoteGridRow, NoteToStore, TraitShown } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { outOfReach } from '../../src/api/api-error.ts';
import { cellShown, entering } from '../../src/notes/cell-model.ts';
import { cellKey } from '../../src/notes/grid-state.ts';
import { NoteStore } from '../../src/notes/note-store.ts';

const trait: TraitShown = {
  id: 't',
  code: 'spikes',
  name: 'Spikes',
  sort: 'counted',
  unit: null,
  least: 0,
  most: 60,
  classes: [],
  wanted: 'more',
  how: null,
  notes: 0,
  notesElsewhere: [],
  estimable: true,
};
const row: NoteGridRow = {
  plant: 'p1',
  plantCode: 'A/1',
  genetCode: 'A',
  genetName: null,
  place: 'bed-1',
  walk: 1,
  cells: {},
  before: {},
};
const noted: NoteGridRow = {
  ...row,
  cells: { spikes: { id: 'old', on: '2031-05-01', state: 'seen', value: 4, by: null, count: 1 } },
};
const setting = { on: '2031-05-20', today: '2031-05-20', units: 'metric' } as const;
const key = cellKey('p1', 'spikes', 2031);
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

/** A server that keeps what it is sent, or does as it is told. */
function setUp(answer?: (note: NoteToStore) => string | null | Error) {
  const kept: NoteToStore[] = [];
  const withdrawn: string[] = [];
  const store = new NoteStore(
    async (notes) => {
      const results = notes.map((note) => {
        const told = answer?.(note) ?? null;
        if (told instanceof Error) throw told;
        if (told === null) kept.push(note);
        return { id: note.id, problem: told };
      });
      return { results };
    },
    async (id) => {
      withdrawn.push(id);
    },
  );
  const type = (text: string, on = row): void => {
    const entry = entering(store.read(), on, trait, text, setting);
    if (entry) store.enter([entry]);
  };
  const shown = (on = row) => cellShown(store.read(), on, trait, 2031, 'metric');
  return { store, kept, withdrawn, type, shown };
}

describe('notes on their way', () => {
  test('a note is sent and marked as kept', async () => {
    const { kept, type, shown } = setUp();
    type('7');
    await settled();
    expect(kept).toMatchObject([{ plant: 'p1', trait: 'spikes', on: '2031-05-20', value: 7 }]);
    expect(shown()).toMatchObject({ text: '7', entered: { status: 'kept' } });
  });

  test('what is wrong with a value is told, the text stays, and nothing is sent', async () => {
    const { kept, type, shown } = setUp();
    type('700');
    await settled();
    expect(kept).toEqual([]);
    expect(shown().text).toBe('700');
    expect(shown().entered).toMatchObject({ status: 'held', problem: expect.stringContaining('60') });
  });

  test('a correction replaces the note that stood there, and shows what it replaced', async () => {
    const { kept, type, shown } = setUp();
    type('9', noted);
    await settled();
    expect(kept).toMatchObject([{ value: 9, replaces: 'old' }]);
    expect(shown(noted).entered?.insteadOf).toBe('4');
  });

  test('a second correction replaces the first, not the note before it', async () => {
    const { kept, type } = setUp();
    type('9', noted);
    await settled();
    type('8', noted);
    await settled();
    expect(kept[1]).toMatchObject({ value: 8, replaces: kept[0]!.id });
  });

  test('the same value typed again is no new note', async () => {
    const { kept, type } = setUp();
    type('4', noted);
    await settled();
    expect(kept).toEqual([]);
  });

  test('a refusal stays in its box with its reason, and a mended value goes out', async () => {
    const { kept, type, shown } = setUp((note) =>
      note.value === 9 ? 'the plant is gone since April' : null,
    );
    type('9', noted);
    await settled();
    expect(shown(noted)).toMatchObject({
      text: '9',
      entered: { status: 'refused', problem: 'the plant is gone since April' },
    });
    type('8', noted);
    await settled();
    expect(kept).toMatchObject([{ value: 8, replaces: 'old' }]);
  });

  test('while the server is out of reach notes wait, and are handed over when it answers again', async () => {
    let reachable = false;
    const { store, kept, type, shown } = setUp(() => (reachable ? null : outOfReach()));
    type('7');
    await settled();
    expect(shown().entered?.status).toBe('waiting');
    expect(store.readTrouble()).not.toBeNull();
    reachable = true;
    await store.handOver();
    expect(shown().entered?.status).toBe('kept');
    expect(kept).toHaveLength(1);
    expect(store.readTrouble()).toBeNull();
  });
});

describe('undo', () => {
  test('a kept note with nothing before it is withdrawn', async () => {
    const { store, kept, withdrawn, type, shown } = setUp();
    type('7');
    await settled();
    store.undo();
    await settled();
    expect(withdrawn).toEqual([kept[0]!.id]);
    expect(shown().text).toBe('');
  });

  test('a kept correction is answered by the former value, as a new note that replaces it', async () => {
    const { store, kept, withdrawn, type, shown } = setUp();
    type('9', noted);
    await settled();
    store.undo();
    await settled();
    expect(kept[1]).toMatchObject({ value: 4, on: '2031-05-01', replaces: kept[0]!.id });
    expect(kept[1]!.id).not.toBe('old');
    expect(withdrawn).toEqual([]);
    expect(shown(noted).text).toBe('4');
  });

  test('what was held back is simply put back as it was', async () => {
    const { store, kept, type, shown } = setUp();
    type('700', noted);
    store.undo();
    await settled();
    expect(shown(noted).text).toBe('4');
    expect(kept).toEqual([]);
  });

  test('a pasted block is undone as one step', async () => {
    const { store, withdrawn } = setUp();
    const other = { ...row, plant: 'p2' };
    store.enter([row, other].flatMap((on) => entering(store.read(), on, trait, '5', setting) ?? []));
    await settled();
    store.undo();
    await settled();
    expect(withdrawn).toHaveLength(2);
    expect(store.read().cells.has(key)).toBe(false);
    expect(store.read().past).toEqual([]);
  });
});
