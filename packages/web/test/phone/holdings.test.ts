import type { FactToTake, HeldNote, HeldPlant, Holdings, TraitShown } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { todayIn } from '../../src/api/kept-programme.ts';
import { storeHoldings } from '../../src/phone/holdings-store.ts';
import { latestOf, NotesEntered } from '../../src/phone/notes-in-hand.ts';
import { newPhone, StubServer } from './stub-server.ts';

const plant = (id: string, more: Partial<HeldPlant> = {}): HeldPlant => ({
  id,
  code: `2031-004-3/${id}`,
  genet: 'g',
  genetCode: '2031-004-3',
  genetName: null,
  parents: '',
  bed: 'bed',
  walk: 1,
  eastM: null,
  northM: null,
  plantedOn: null,
  goneOn: null,
  ...more,
});
const note = (id: string, on: string, value: number, more: Partial<HeldNote> = {}): HeldNote => ({
  id,
  plant: 'p',
  trait: 'height-id',
  on,
  state: 'seen',
  value,
  by: 'MK',
  remark: null,
  photo: null,
  ...more,
});
const height = {
  id: 'height-id',
  code: 'height',
  name: 'Height',
  sort: 'measured',
  unit: 'cm',
} as TraitShown;
const holdings = (more: Partial<Holdings>): Holdings => ({
  upTo: 7,
  whole: true,
  settings: { name: 'Garden', timeZone: 'Pacific/Auckland', units: 'metric' },
  person: { id: null, code: 'MK', name: 'Mia', role: 'recorder' },
  today: '2031-05-20',
  places: [],
  traits: [height],
  briefs: [],
  crosses: [],
  plants: [],
  notes: [],
  gone: [],
  ...more,
});
const now = new Date('2031-05-20T08:00:00Z');

describe('holdings', () => {
  test('are asked for whole, then from the act up to which they are known', async () => {
    const server = new StubServer();
    server.answer = holdings({ plants: [plant('p')], notes: [note('n', '2031-05-01', 5)] });
    const { phone } = newPhone(server);
    await phone.fetchHoldings();
    server.answer = holdings({ upTo: 9, whole: false });
    await phone.fetchHoldings();
    expect(server.wanted).toEqual([null, 7]);
    expect(await phone.db.plants.toArray()).toMatchObject([{ id: 'p', notes: [{ id: 'n' }] }]);
    expect(await phone.db.held.get('holdings')).toMatchObject({ upTo: 9 });
  });

  test('changes put plants and notes in place and take away what is gone', async () => {
    const { db } = newPhone(new StubServer()).phone;
    const first = holdings({
      plants: [plant('p'), plant('q'), plant('r')],
      notes: [note('n1', '2031-05-01', 5), note('n2', '2031-05-02', 6)],
    });
    await storeHoldings(db, first, null, now);
    const change = holdings({
      upTo: 8,
      whole: false,
      plants: [plant('q', { walk: 4 })],
      notes: [note('n3', '2031-05-03', 7)],
      gone: ['n1', 'r'],
    });
    expect(await storeHoldings(db, change, 7, now)).toBe(true);
    const rows = await db.plants.toArray();
    expect(rows.map(({ id, walk, notes }) => [id, walk, notes.map((one) => one.id)])).toEqual([
      ['p', 1, ['n2', 'n3']],
      ['q', 4, []],
    ]);
  });

  test('a part that does not follow what the phone holds is dropped', async () => {
    const { db } = newPhone(new StubServer()).phone;
    await storeHoldings(db, holdings({ plants: [plant('p')] }), null, now);
    expect(await storeHoldings(db, holdings({ upTo: 12, whole: false, gone: ['p'] }), 5, now)).toBe(false);
    expect(await db.plants.count()).toBe(1);
    expect(await db.held.get('holdings')).toMatchObject({ upTo: 7 });
  });

  test('are left as they were where the server does not answer', async () => {
    const server = new StubServer();
    const { phone } = newPhone(server);
    await storeHoldings(phone.db, holdings({ plants: [plant('p')] }), null, now);
    await expect(phone.fetchHoldings()).rejects.toThrow('does not answer');
    expect(await phone.db.plants.count()).toBe(1);
  });
});

describe('notes entered here, laid over those held', () => {
  const row = { ...plant('p'), notes: [note('old', '2030-06-01', 80), note('new', '2031-05-01', 90)] };
  const plants = new Map([['p', row]]);
  const entered = async (...steps: ((phone: ReturnType<typeof newPhone>['phone']) => Promise<unknown>)[]) => {
    const server = new StubServer();
    server.kept.set('new', {} as FactToTake);
    const { phone } = newPhone(server);
    for (const step of steps) await step(phone);
    await phone.handOver();
    const facts = await phone.db.facts.orderBy('order').toArray();
    return new NotesEntered(facts, 0, plants, [height], 'MK').on(row);
  };
  const fact = (value: number, replaces?: string) => ({
    kind: 'notes' as const,
    row: { plant: 'p', trait: 'height', on: '2031-05-20', value },
    words: '',
    ...(replaces ? { replaces } : {}),
  });

  test('the latest of this season and of the last', async () => {
    const notes = await entered((phone) => phone.enter([fact(95)]));
    expect(latestOf(notes, 'height-id', '2031-05-20')).toMatchObject({
      thisSeason: { value: 95, by: 'MK' },
      lastSeason: { id: 'old', value: 80 },
    });
  });

  test('one that corrects a held note takes its place', async () => {
    const notes = await entered((phone) => phone.enter([fact(95, 'new')]));
    expect(notes.map(({ value }) => value)).toEqual([80, 95]);
  });

  test('one that the holdings tell of already is not shown twice', async () => {
    const server = new StubServer();
    server.upTo = 20;
    const { phone } = newPhone(server);
    await phone.enter([fact(95)]);
    await phone.handOver();
    const facts = await phone.db.facts.toArray();
    expect(new NotesEntered(facts, 20, plants, [height], 'MK').on(row)).toHaveLength(3);
    expect(new NotesEntered(facts, 21, plants, [height], 'MK').on(row)).toHaveLength(2);
  });
});

describe('today on a phone', () => {
  test('is the date in the garden’s time zone', () => {
    // 22 May 2031, 13:00 UTC is one in the morning of the 23rd in Auckland (UTC+12 in winter).
    expect(todayIn('Pacific/Auckland', '2031-05-20', new Date('2031-05-22T13:00:00Z'))).toBe('2031-05-23');
  });
  test('is never before a day that the server has seen, however late the phone’s clock is', () => {
    expect(todayIn('UTC', '2031-05-20', new Date('2019-01-01T00:00:00Z'))).toBe('2031-05-20');
  });
});
