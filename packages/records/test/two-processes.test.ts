import { rmSync } from 'node:fs';
import { usualSettings } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import { act, add, countRecords, openProgramme, type Programme, storeNotes } from '../src/index.ts';
import { expectWhole } from './support/whole.ts';
import { bundleWriter, startWriter } from './support/writers.ts';

const by = { person: null, device: null, via: 'browser' as const };
const notesOfEach = 150;

/** Lets whatever else waits in this process have its turn: SQLite’s work gives way to nothing by itself. */
const breathe = (): Promise<void> => new Promise((next) => setImmediate(next));

let bundle: string;
beforeAll(async () => {
  bundle = await bundleWriter();
});
afterAll(() => rmSync(bundle, { recursive: true, force: true }));

/** Reads the book of acts again and again while others write; says how often it looked and what came out of order. */
async function watchActs(
  programme: Programme,
  isOver: () => boolean,
): Promise<{ looks: number; late: number[] }> {
  const seen = new Set<number>();
  const late: number[] = [];
  let highest = 0;
  let looks = 0;
  for (let last = false; !last; looks++) {
    last = isOver();
    const rows = await programme.read.selectFrom('acts').select('seq').execute();
    const fresh = rows.map(({ seq }) => seq).filter((seq) => !seen.has(seq));
    late.push(...fresh.filter((seq) => seq <= highest));
    for (const seq of fresh) {
      seen.add(seq);
      highest = Math.max(highest, seq);
    }
    await breathe();
  }
  return { looks, late };
}

onBothStores('several processes on one programme', (store) => {
  it('lose nothing, and their acts come to stand in the order of their numbers', async () => {
    const where = await store.place();
    const programme = await openProgramme(where, usualSettings);
    try {
      const writers = [startWriter(bundle, where, notesOfEach), startWriter(bundle, where, notesOfEach)];
      await Promise.all(writers.map((writer) => writer.acknowledges(1)));
      let over = false;
      const watching = watchActs(programme, () => over);
      const own: string[] = [];
      for (let written = 0; written < notesOfEach; written++) {
        const note = { id: newId(), plant: 'A/1', trait: 'height', on: '2021-05-20', value: written };
        expect(await storeNotes(programme, { ...by, mayCorrectOthers: true }, [note])).toEqual([
          { id: note.id, problem: null },
        ]);
        own.push(note.id);
        await breathe();
      }
      for (const writer of writers) {
        const { status, said } = await writer.ended;
        expect([status, said]).toEqual([0, '']);
      }
      over = true;
      const { looks, late } = await watching;
      expect(late).toEqual([]);
      expect(looks).toBeGreaterThan(10);

      const stored = await programme.read.selectFrom('notes').select(['id', 'made_act']).execute();
      const acknowledged = [...own, ...writers.flatMap((writer) => writer.acknowledged)];
      expect(acknowledged).toHaveLength(3 * notesOfEach);
      expect(stored.map(({ id }) => id).sort()).toEqual([...acknowledged].sort());
      const acts = stored.map(({ made_act }) => made_act);
      expect(new Set(acts).size).toBe(acts.length);
      // Each writer's notes bear numbers that rise in the order in which it was told that they are stored.
      const actOf = new Map(stored.map(({ id, made_act }) => [id, made_act]));
      for (const list of [own, ...writers.map((writer) => writer.acknowledged)]) {
        const numbers = list.map((id) => actOf.get(id)!);
        expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
      }
      if (store.backend === 'sqlite') await expectWhole(programme);
    } finally {
      await programme.close();
    }
  });

  it('may begin the same new programme at the same moment', async () => {
    const where = await store.place();
    const writers = Array.from({ length: 4 }, () => startWriter(bundle, where, 3));
    for (const writer of writers) expect(await writer.ended).toEqual({ status: 0, signal: null, said: '' });
    const programme = await openProgramme(where);
    expect(await countRecords(programme.read, ['traits', 'genets', 'plants'])).toEqual({
      traits: 1,
      genets: 1,
      plants: 1,
    });
    expect((await programme.read.selectFrom('notes').select('id').execute()).length).toBe(12);
    await programme.close();
  });

  it('read what stood before while another’s long act is under way', async () => {
    const programme = await store.make();
    await act(programme, by, (doing) => add(doing, 'genets', [{ code: 'A' }]));
    await act(programme, by, async (doing) => {
      await add(doing, 'genets', [{ code: 'B' }]);
      const other = await openProgramme(programme.location);
      expect((await countRecords(other.read, ['genets'])).genets).toBe(1);
      await other.close();
      expect((await countRecords(programme.read, ['genets'])).genets).toBe(1);
    });
    expect((await countRecords(programme.read, ['genets'])).genets).toBe(2);
  });

  it('do acts of one process that are asked for at once one after the other', async () => {
    const programme = await store.make();
    const codes = Array.from({ length: 30 }, (_, index) => `G-${index}`);
    await Promise.all(codes.map((code) => act(programme, by, (doing) => add(doing, 'genets', [{ code }]))));
    const rows = await programme.read.selectFrom('genets').select('made_act').execute();
    expect(new Set(rows.map(({ made_act }) => made_act)).size).toBe(30);
  });
});
