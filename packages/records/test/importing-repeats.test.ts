import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { KindName } from '@keelrow/breeding/facts';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import {
  act,
  add,
  listRecords,
  openImport,
  type PlanWishes,
  type Programme,
  readByCode,
  takeIn,
} from '../src/index.ts';

const by = { person: null, device: null, via: 'import' as const };
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'keelrow-repeats-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let files = 0;
async function bring(programme: Programme, kind: KindName, text: string, wishes: PlanWishes = {}) {
  const path = join(folder, `sheet-${++files}.csv`);
  writeFileSync(path, text);
  return takeIn(programme, [await openImport(programme, path, { kind, ...wishes })], { by, store: true });
}

const total = async (programme: Programme, kind: KindName): Promise<number> =>
  (await listRecords(programme.read, kind, {})).total;

async function garden(programme: Programme): Promise<void> {
  await act(programme, by, async (doing) => {
    await add(doing, 'traits', [{ code: 'height', name: 'Height', sort: 'measured', unit: 'cm' }]);
    await add(doing, 'genets', [{ code: 'A' }]);
    await add(doing, 'plants', [{ code: 'A/1', genet: 'A' }]);
    await add(doing, 'places', [{ code: 'home', sort: 'site' }]);
  });
}

onBothStores('rows that repeat one another', (store) => {
  it('are refused within one file, and counted as there when they come in another', async () => {
    const programme = await store.make();
    await garden(programme);
    const row = 'A/1,height,2021-05-20,41\n';
    const twice = await bring(
      programme,
      'notes',
      `plant,trait,on,value\n${row}A/1,height,2021-05-21,42\n${row}`,
    );
    expect(twice.problems).toEqual([
      {
        file: `sheet-${files}.csv`,
        row: 4,
        column: 'on',
        problem: 'this row says the same as row 2',
        remedy: 'take out one of the two; notes that were truly made twice are told apart by a remark',
      },
    ]);
    expect(await total(programme, 'notes')).toBe(0);
    await bring(programme, 'notes', `plant,trait,on,value\n${row}`);
    expect(await bring(programme, 'notes', `plant,trait,on,value,remark\n${row.trim()},\n`)).toMatchObject({
      alreadyThere: 1,
      stored: {},
    });
  });

  it('are found however far apart they stand', async () => {
    const programme = await store.make();
    await garden(programme);
    const rows = Array.from({ length: 2500 }, (_, index) => `A/1,height,2021-05-20,${index + 1}`);
    const outcome = await bring(programme, 'notes', ['plant,trait,on,value', ...rows, rows[0]].join('\n'));
    expect(outcome.problems).toMatchObject([{ row: 2502, problem: 'this row says the same as row 2' }]);
    expect(await total(programme, 'notes')).toBe(0);
  });

  it('are found by their ids, and an id that is none is told by its place', async () => {
    const programme = await store.make();
    const id = '01900000-0000-7000-8000-000000000001';
    const twice = await bring(programme, 'places', `code,sort,id\nbed-1,bed,${id}\nbed-2,bed,${id}\n`);
    expect(twice.problems).toMatchObject([
      { row: 3, column: 'id', problem: 'this id stands in row 2 already' },
    ]);
    const none = await bring(programme, 'places', `code,sort,id\nbed-1,bed,${id}\nbed-2,bed,17\n`, {
      columns: [{ field: 'code' }, { field: 'sort' }, { field: 'id' }],
    });
    expect(none.problems).toMatchObject([
      { row: 3, column: 'id', problem: expect.stringContaining('“17” is not an id') },
    ]);
    expect(await total(programme, 'places')).toBe(0);
  });

  it('are found by site and day among days of weather, in the file and in the programme', async () => {
    const programme = await store.make();
    await garden(programme);
    const header = 'site,on,tmin_c,tmax_c\n';
    const twice = await bring(programme, 'weather', `${header}home,2021-04-03,1,9\nhome,2021-04-03,2,9\n`);
    expect(twice.problems).toMatchObject([
      { row: 3, column: 'on', problem: 'row 2 gives the weather of this day at this site already' },
    ]);
    await bring(programme, 'weather', `${header}home,2021-04-03,1,9\n`);
    const again = await bring(programme, 'weather', `${header}home,2021-04-02,1,9\nhome,2021-04-03,2,9\n`);
    expect(again.problems).toMatchObject([
      { row: 3, column: 'on', problem: expect.stringContaining('is there already') },
    ]);
    expect(await total(programme, 'weather')).toBe(1);
  });

  it('are known again where a kind has no codes', async () => {
    const programme = await store.make();
    await garden(programme);
    await act(programme, by, (doing) => add(doing, 'trials', [{ code: 'TR-1' }]));
    const text = 'trial,genet,replicate,row,column\nTR-1,A,1,1,1\nTR-1,A,2,1,2\n';
    expect(await bring(programme, 'trial-entries', text)).toMatchObject({ stored: { 'trial-entries': 2 } });
    expect(await bring(programme, 'trial-entries', text, { again: true })).toMatchObject({
      stored: {},
      alreadyThere: 2,
    });
  });
});

onBothStores('reading rows', (store) => {
  it('keeps the units of traits that are taken in', async () => {
    const programme = await store.make();
    await bring(programme, 'traits', 'code,name,sort,unit\nheight,Height,measured,cm\n');
    expect(await readByCode(programme.read, 'traits', 'height')).toMatchObject({ unit: 'cm' });
  });

  it('tells what is wrong with a value for all rows though empty lines follow the header', async () => {
    const programme = await store.make();
    await garden(programme);
    const outcome = await bring(programme, 'places', 'code,sort\n\n\nbed-1,bed\nbed-2,bed\n', {
      constants: { latitude: 'north' },
    });
    expect(outcome.problems).toMatchObject([
      { row: null, column: 'latitude', problem: expect.stringContaining('“north” is not a number') },
    ]);
  });

  it('takes plants’ own numbers under a header “ID” for codes, and our ids for ids', async () => {
    const programme = await store.make();
    await garden(programme);
    await bring(programme, 'plants', 'ID,genet\n17,A\n');
    expect(await readByCode(programme.read, 'plants', '17')).toMatchObject({ genet: 'A' });
    const id = '01900000-0000-7000-8000-000000000009';
    await bring(programme, 'plants', `code,genet,id\n18,A,${id}\n`);
    expect(await readByCode(programme.read, 'plants', '18')).toMatchObject({ id });
  });

  it('tells classes that differ in capitals apart, and finds one that is written otherwise', async () => {
    const programme = await store.make();
    await garden(programme);
    await act(programme, by, (doing) =>
      add(doing, 'traits', [
        { code: 'stem', name: 'Stem', sort: 'classed', classes: ['bare', 'Bare', 'half-leafy'] },
      ]),
    );
    const text =
      'plant,trait,on,value\nA/1,stem,2021-05-20,Bare\nA/1,stem,2021-05-21,bare\nA/1,stem,2021-05-22,Half leafy\n';
    await bring(programme, 'notes', text);
    const { rows } = await listRecords(programme.read, 'notes', {});
    expect(rows.map(({ value }) => value).sort()).toEqual(['Bare', 'bare', 'half-leafy']);
  });

  it('gives columns that differ in their unit alone traits of their own', async () => {
    const programme = await store.make();
    await garden(programme);
    const text = 'plant,on,Chill (days),Chill\nA/1,2021-05-20,30,yes\n';
    expect(await bring(programme, 'notes', text)).toMatchObject({
      problemCount: 0,
      stored: { traits: 2, notes: 2 },
    });
    const { rows } = await listRecords(programme.read, 'notes', {});
    expect(rows.map(({ trait, value }) => [trait, value]).sort()).toEqual([
      ['chill', 30],
      ['chill-2', 'yes'],
    ]);
    expect(await readByCode(programme.read, 'traits', 'chill-2')).toMatchObject({
      name: 'Chill',
      sort: 'written',
    });
  });
});
