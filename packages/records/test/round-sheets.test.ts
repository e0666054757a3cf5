import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import {
  act,
  add,
  keepRoundSheet,
  type Programme,
  readNoteGrid,
  readRoundSheet,
  readRoundSheets,
} from '../src/index.ts';

const by = { person: null, device: null, via: 'command' } as const;
const one = (programme: Programme, kind: Parameters<typeof add>[1], row: Parameters<typeof add>[2][number]) =>
  act(programme, by, async (doing) => (await add(doing, kind, [row]))[0]!);

const on = new Date('2031-05-20T08:00:00Z');

onBothStores('round sheets', (store) => {
  it('are kept under the next number of their year and found by it', async () => {
    const programme = await store.make();
    const content = { place: 'bed-4', traits: ['height'], plants: ['b', 'a'] };
    const first = await keepRoundSheet(programme, content, on);
    expect(first).toEqual({ ...content, code: 'R31-01', madeAt: on.toISOString() });
    expect(await readRoundSheet(programme.read, ' r31-01 ')).toEqual(first);
    await expect(readRoundSheet(programme.read, 'R31-09')).rejects.toMatchObject({
      because: 'absent',
      message: expect.stringContaining('R31-09'),
    });
  });

  it('that are printed at the same time get numbers of their own', async () => {
    const programme = await store.make();
    const content = { place: null, traits: ['height'], plants: [] };
    const kept = await Promise.all(Array.from({ length: 8 }, () => keepRoundSheet(programme, content, on)));
    expect(new Set(kept.map(({ code }) => code)).size).toBe(8);
    expect((await readRoundSheets(programme.read, 3)).map(({ code }) => code)).toEqual([
      'R31-08',
      'R31-07',
      'R31-06',
    ]);
  });

  it('give their plants in the order of the sheet, moved or gone since or not', async () => {
    const programme = await store.make();
    await one(programme, 'places', { code: 'bed-4', sort: 'bed' });
    await one(programme, 'places', { code: 'bed-5', sort: 'bed' });
    await one(programme, 'traits', { code: 'height', name: 'Height', sort: 'measured', unit: 'cm' });
    await one(programme, 'genets', { code: 'G1' });
    const ids: string[] = [];
    for (const [at, more] of [{}, { gone_on: '2024-04-01' }, {}].entries()) {
      const id = await one(programme, 'plants', {
        code: `G1/${at + 1}`,
        genet: 'G1',
        place: 'bed-4',
        walk: at + 1,
        ...more,
      });
      ids.push(id);
    }
    await one(programme, 'moves', { plant: 'G1/3', on: '2025-05-25', place: 'bed-5' });
    const grid = await readNoteGrid(programme.read, {
      place: 'bed-4',
      plants: [...ids].reverse(),
      traits: ['height'],
      year: 2025,
    });
    expect(grid.rows.map(({ plantCode }) => plantCode)).toEqual(['G1/3', 'G1/2', 'G1/1']);
  });
});
