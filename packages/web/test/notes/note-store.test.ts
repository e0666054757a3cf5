import type { FactToTake, NoteGridRow, TraitShown } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { outOfReach } from '../../src/api/api-error.ts';
import { cellShown, entering } from '../../src/notes/cell-model.ts';
import { cellKey } from '../../src/notes/grid-state.ts';
import { NoteStore } from '../../src/notes/note-store.ts';
import { newPhone, StubServer } from '../phone/stub-server.ts';

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
/** A grid on a phone's queue, on a disk of its own or a given one, with a server that refuses as it is told. */
function setUp(refuse: (value: unknown) => string | null = () => null, disk?: IDBFactory) {
  const server = new StubServer();
  server.kept.set('old', {} as FactToTake);
  server.refuse = (fact) => (fact.kind === 'notes' ? refuse(fact.row.value) : null);
  const made = newPhone(server, disk);
  const store = new NoteStore(made.phone);
  const settled = async (): Promise<void> => {
    await store.atRest();
    await made.phone.handOver();
    // The boxes follow the disk a moment later.
    store.follow(await made.phone.db.facts.orderBy('order').toArray());
  };
  const type = (text: string, on = row): void => {
    const entry = entering(store.read(), on, trait, text, setting);
    if (entry) store.enter([entry]);
  };
  const shown = (on = row) => cellShown(store.read(), on, trait, 2031, 'metric');
  /** What the server has, as rows with their ids. */
  const kept = () =>
    [...server.kept.values()].flatMap((fact) =>
      fact.kind === 'notes'
        ? [{ ...fact.row, id: fact.id, ...(fact.replaces ? { replaces: fact.replaces } : {}) }]
        : [],
    );
  const withdrawn = () =>
    [...server.kept.values()].flatMap((fact) => (fact.kind === 'withdrawal' ? [fact.of.id] : []));
  return { store, server, kept, withdrawn, type, shown, settled, disk: made.disk };
}

describe('notes on their way', () => {
  test('a note is sent and marked as kept', async () => {
    const { kept, type, shown, settled } = setUp();
    type('7');
    await settled();
    expect(kept()).toMatchObject([{ plant: 'p1', trait: 'spikes', on: '2031-05-20', value: 7 }]);
    expect(shown()).toMatchObject({ text: '7', entered: { status: 'kept' } });
  });

  test('what is wrong with a value is told, the text stays, and nothing is sent', async () => {
    const { kept, type, shown, settled } = setUp();
    type('700');
    await settled();
    expect(kept()).toEqual([]);
    expect(shown().text).toBe('700');
    expect(shown().entered).toMatchObject({ status: 'held', problem: expect.stringContaining('60') });
  });

  test('a correction replaces the note that stood there, and shows what it replaced', async () => {
    const { kept, type, shown, settled } = setUp();
    type('9', noted);
    await settled();
    expect(kept()).toMatchObject([{ value: 9, replaces: 'old' }]);
    expect(shown(noted).entered?.before?.shown).toBe('4');
  });

  test('a second correction replaces the first, not the note before it', async () => {
    const { kept, type, settled } = setUp();
    type('9', noted);
    await settled();
    type('8', noted);
    await settled();
    expect(kept()[1]).toMatchObject({ value: 8, replaces: kept()[0]!.id });
  });

  test('the same value typed again is no new note', async () => {
    const { kept, type, settled } = setUp();
    type('4', noted);
    await settled();
    expect(kept()).toEqual([]);
  });

  test('a refusal stays in its box with its reason, and a mended value goes out', async () => {
    const { kept, type, shown, settled } = setUp((value) =>
      value === 9 ? 'the plant is gone since April' : null,
    );
    type('9', noted);
    await settled();
    expect(shown(noted)).toMatchObject({
      text: '9',
      entered: { status: 'refused', problem: 'the plant is gone since April' },
    });
    type('8', noted);
    await settled();
    expect(kept()).toMatchObject([{ value: 8, replaces: 'old' }]);
  });

  test('a value typed after one that was wrong in itself corrects the note that is on its way', async () => {
    const { kept, type, settled } = setUp();
    type('7');
    await settled();
    type('700');
    type('8');
    await settled();
    expect(kept()[1]).toMatchObject({ value: 8, replaces: kept()[0]!.id });
  });

  test('while the server is out of reach notes wait, over a reload too, and are handed over when it answers again', async () => {
    const first = setUp();
    first.server.before = () => {
      throw outOfReach();
    };
    first.type('7');
    await first.settled();
    expect(first.shown().entered?.status).toBe('sending');
    const again = setUp(undefined, first.disk);
    again.server.before = first.server.before;
    await again.settled();
    expect(again.shown()).toMatchObject({ text: '7', entered: { status: 'sending' } });
    again.server.before = () => {};
    await again.settled();
    expect(again.shown().entered?.status).toBe('kept');
    expect(again.kept()).toMatchObject([{ plant: 'p1', trait: 'spikes', value: 7 }]);
  });

  test('what cannot be written down stays in its box with the reason', async () => {
    const store = new NoteStore({
      enter: () => Promise.reject(new Error('There is no room left on this device')),
      withdrawOrForget: () => Promise.reject(new Error('not called')),
    });
    store.enter([entering(store.read(), row, trait, '7', setting)!]);
    await store.atRest();
    expect(store.read().cells.get(key)).toMatchObject({
      typed: '7',
      status: 'held',
      problem: 'There is no room left on this device',
    });
  });
});

describe('undo', () => {
  test('a kept note with nothing before it is withdrawn', async () => {
    const { store, kept, withdrawn, type, shown, settled } = setUp();
    type('7');
    await settled();
    store.undo();
    await settled();
    expect(withdrawn()).toEqual([kept()[0]!.id]);
    expect(shown().text).toBe('');
  });

  test('a kept correction is answered by the former value, as a new note that replaces it', async () => {
    const { store, kept, withdrawn, type, shown, settled } = setUp();
    type('9', noted);
    await settled();
    store.undo();
    await settled();
    expect(kept()[1]).toMatchObject({ value: 4, on: '2031-05-01', replaces: kept()[0]!.id });
    expect(kept()[1]!.id).not.toBe('old');
    expect(withdrawn()).toEqual([]);
    expect(shown(noted).text).toBe('4');
  });

  test('what was held back is simply put back as it was', async () => {
    const { store, kept, type, shown, settled } = setUp();
    type('700', noted);
    store.undo();
    await settled();
    expect(shown(noted).text).toBe('4');
    expect(kept()).toEqual([]);
  });

  test('a pasted block is undone as one step', async () => {
    const { store, withdrawn, settled } = setUp();
    const other = { ...row, plant: 'p2' };
    store.enter([row, other].flatMap((on) => entering(store.read(), on, trait, '5', setting) ?? []));
    await settled();
    store.undo();
    await settled();
    expect(withdrawn()).toHaveLength(2);
    expect(store.read().cells.has(key)).toBe(false);
    expect(store.read().past).toEqual([]);
  });
});
