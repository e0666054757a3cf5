import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import {
  act,
  add,
  change,
  listRecords,
  type Programme,
  readByCode,
  readRecord,
  replace,
  withdraw,
} from '../src/index.ts';

const by = { person: null, device: null, via: 'command' as const };
const zero = String.fromCharCode(0);

const one = (programme: Programme, kind: Parameters<typeof add>[1], row: Parameters<typeof add>[2][number]) =>
  act(programme, by, async (doing) => (await add(doing, kind, [row]))[0]!);

onBothStores('storing', (store) => {
  it('refuses what one of the two databases could not keep, on both alike', async () => {
    const programme = await store.make();
    await expect(one(programme, 'genets', { code: 'A', remark: `dark${zero}stems` })).rejects.toMatchObject({
      because: 'input',
      where: { field: 'remark' },
      message: expect.stringContaining('cannot be stored'),
    });
    await expect(one(programme, 'genets', { code: 'A', remark: 'half \ud83c a sign' })).rejects.toThrow(
      /half of a character/,
    );
    await expect(one(programme, 'taxa', { name: 'A', protection: `${zero}` })).rejects.toThrow(
      /cannot be stored/,
    );
    // source: PostgreSQL, “Numeric Types”: integer reaches 2147483647
    await expect(one(programme, 'places', { code: 'bed', sort: 'bed', walk: 2_147_483_648 })).rejects.toThrow(
      /too large/,
    );
    const id = await one(programme, 'places', { code: 'bed', sort: 'bed', walk: 2_147_483_647 });
    expect(await readRecord(programme.read, 'places', id)).toMatchObject({ walk: 2_147_483_647 });
    await expect(
      act(programme, by, (doing) => change(doing, 'places', id, { walk: 3_000_000_000 })),
    ).rejects.toThrow(/too large/);
    await expect(
      act(programme, by, (doing) => change(doing, 'places', id, { remark: zero })),
    ).rejects.toThrow(/cannot be stored/);
  });

  it('refuses codes of genets that would read as something else among parents', async () => {
    const programme = await store.make();
    for (const code of ['self', 'A;B', 'A;B:0.5', 'A: 0.5', 'A:5e-1']) {
      await expect(one(programme, 'genets', { code })).rejects.toMatchObject({
        because: 'input',
        where: { field: 'code' },
      });
    }
    for (const code of ['A:b', 'A:', 'Selfed', 'A:0.5']) await one(programme, 'genets', { code });
    const child = await one(programme, 'genets', {
      code: 'C',
      seed_parent: [
        { genet: 'A:b', chance: 0.25 },
        { genet: 'A:0.5', chance: 0.5 },
      ],
    });
    expect(await readRecord(programme.read, 'genets', child)).toMatchObject({
      seed_parent: [
        { genet: 'A:b', chance: 0.25 },
        { genet: 'A:0.5', chance: 0.5 },
      ],
    });
    await expect(
      act(programme, by, (doing) => change(doing, 'genets', child, { code: 'self' })),
    ).rejects.toThrow(/cannot be the code of a genet/);
  });

  it('keeps no blanks around texts and no empty words in lists', async () => {
    const programme = await store.make();
    const id = await one(programme, 'traits', {
      code: 'stem',
      name: '  Stem ',
      sort: 'classed',
      classes: [' bare', '', 'leafy '],
      remark: ' \n ',
    });
    expect(await readRecord(programme.read, 'traits', id)).toMatchObject({
      name: 'Stem',
      classes: ['bare', 'leafy'],
      remark: null,
    });
  });

  it('refuses a code given twice at once, however many come, and takes an id given twice at once', async () => {
    const programme = await store.make();
    const many = Array.from({ length: 12_000 }, (_, index) => ({ code: `G-${index % 11_999}` }));
    await expect(act(programme, by, (doing) => add(doing, 'genets', many))).rejects.toThrow(
      'the code “G-0” is given twice',
    );
    const row = { id: '01900000-0000-7000-8000-000000000001', code: 'A' };
    expect(await act(programme, by, (doing) => add(doing, 'genets', [row, row]))).toEqual([row.id, row.id]);
    expect((await listRecords(programme.read, 'genets', {})).total).toBe(1);
  });

  it('corrects a day of weather, of which only one may stand', async () => {
    const programme = await store.make();
    await one(programme, 'places', { code: 'home', sort: 'site' });
    const day = { site: 'home', on: '2021-04-03', tmin_c: -2, tmax_c: 11 };
    const first = await one(programme, 'weather', day);
    await expect(one(programme, 'weather', day)).rejects.toMatchObject({ because: 'conflict' });
    await act(programme, by, (doing) => replace(doing, 'weather', first, { ...day, tmin_c: -3 }, 'misread'));
    expect((await listRecords(programme.read, 'weather', {})).rows.map(({ tmin_c }) => tmin_c)).toEqual([-3]);
  });

  it('withdraws nothing that standing records refer to, and names them', async () => {
    const programme = await store.make();
    const genet = await one(programme, 'genets', { code: 'A' });
    const plant = await one(programme, 'plants', { code: 'A/1', genet: 'A' });
    await one(programme, 'traits', { code: 'look', name: 'Look', sort: 'written' });
    const note = { plant: 'A/1', trait: 'look', on: '2021-05-20' };
    const notes = [
      await one(programme, 'notes', { ...note, value: 'leggy' }),
      await one(programme, 'notes', { ...note, value: 'upright' }),
    ];
    const child = await one(programme, 'genets', { code: 'B', seed_parent: [{ genet: 'A', chance: 0.5 }] });
    const drop = (kind: Parameters<typeof add>[1], id: string) =>
      act(programme, by, (doing) => withdraw(doing, kind, id, 'entered twice'));
    await expect(drop('genets', genet)).rejects.toThrow(
      'this genet cannot be withdrawn while others refer to it: 1 genet, 1 plant',
    );
    await expect(drop('plants', plant)).rejects.toThrow(/refer to it: 2 notes$/);
    for (const id of notes) await drop('notes', id);
    await drop('plants', plant);
    await drop('genets', child);
    await drop('genets', genet);
    expect(await readByCode(programme.read, 'genets', 'A')).toBeNull();
  });

  it('takes no reference to a record that was withdrawn, by its code or by its id', async () => {
    const programme = await store.make();
    const genet = await one(programme, 'genets', { code: 'A' });
    await act(programme, by, (doing) => withdraw(doing, 'genets', genet, 'entered twice'));
    for (const name of ['A', genet]) {
      await expect(one(programme, 'plants', { code: 'A/1', genet: name })).rejects.toThrow(
        `there is no genet “${name}”`,
      );
    }
  });
});
