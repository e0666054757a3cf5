import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import { act, add, listRecords, openImport, type PlanWishes, type Programme, takeIn } from '../src/index.ts';

const by = { person: null, device: null, via: 'import' as const };
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'keelrow-import-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let files = 0;
function file(text: string, name = `sheet-${++files}.csv`): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

async function bring(programme: Programme, text: string, wishes: PlanWishes = {}, store = true) {
  return takeIn(programme, [await openImport(programme, file(text), wishes)], { by, store });
}

async function withHeight(programme: Programme): Promise<void> {
  await act(programme, by, async (doing) => {
    await add(doing, 'traits', [
      { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', least: 5, most: 300 },
    ]);
    await add(doing, 'genets', [{ code: 'A' }, { code: 'B' }]);
    await add(doing, 'plants', [
      { code: 'A/1', genet: 'A' },
      { code: 'B/1', genet: 'B' },
    ]);
  });
}

onBothStores('importing', (store) => {
  it('takes a plain file of genets with parents that stand later in the file', async () => {
    const programme = await store.make();
    const outcome = await bring(programme, 'code,seed_parent,pollen_parent\nC,A,B:0.5;self:0.2\nA,,\nB,,\n', {
      kind: 'genets',
    });
    expect(outcome).toMatchObject({ problemCount: 0, stored: { genets: 3 } });
    const { rows } = await listRecords(programme.read, 'genets', {});
    expect(rows.find(({ code }) => code === 'C')).toMatchObject({
      seed_parent: [{ genet: 'A', chance: 1 }],
      pollen_parent: [
        { genet: 'B', chance: 0.5 },
        { genet: 'self', chance: 0.2 },
      ],
    });
  });

  it('says all that is wrong by row and column, and stores nothing', async () => {
    const programme = await store.make();
    await withHeight(programme);
    const outcome = await bring(
      programme,
      'plant,trait,on,value\nA/1,height,2021-05-20,41\nA/1,height,2021-05-20,900\nZ/9,height,2021-05-21,40\nB/1,girth,2021-05-21,40\nB/1,height,2399-05-21,40\nB/1,height,2021-05-21,tall\n',
      { kind: 'notes' },
    );
    expect(outcome.problems.map(({ row, column, problem }) => [row, column, problem])).toEqual([
      [3, 'value', '900 cm is above the most for Height, 300 cm; mend the value or the trait’s limit'],
      [4, 'plant', 'there is no plant “Z/9”'],
      [5, 'trait', 'there is no trait “girth”'],
      [6, 'on', expect.stringContaining('lies in the future')],
      [7, 'value', expect.stringContaining('“tall” is not a number')],
    ]);
    expect((await listRecords(programme.read, 'notes', {})).total).toBe(0);
  });

  it('reads a sheet with a row a plant and a column a trait, making what it names', async () => {
    const programme = await store.make();
    const outcome = await bring(
      programme,
      'Plant;Height (in);Spikes;Date;Comments\nBlue 1;30;12;3.4.2021;ok\nBlue 2;36,5;;14.4.2021;\n',
      {
        make: ['plants'],
      },
    );
    expect(outcome.problems).toEqual([]);
    expect(outcome.stored).toMatchObject({ plants: 2, genets: 2, traits: 3 });
    const { rows } = await listRecords(programme.read, 'notes', {});
    expect(rows.map(({ plant, trait, value, on }) => [plant, trait, value, on]).sort()).toEqual([
      ['Blue 1', 'comments', 'ok', '2021-04-03'],
      ['Blue 1', 'height', 76.2, '2021-04-03'],
      ['Blue 1', 'spikes', 12, '2021-04-03'],
      ['Blue 2', 'height', 92.71, '2021-04-14'],
    ]);
  });

  it('takes plants, their varieties, beds and values from one sheet', async () => {
    const programme = await store.make();
    const text =
      'Plant no.;Variety;Bed;Date;Height (cm)\n101;Slate Heron;long bed;2021-06-01;81\n102;Slate Heron;long bed;2021-06-01;84\n103;Oat Loft;pond;2021-06-01;60\n';
    const outcome = await bring(programme, text, { make: ['plants'] });
    expect(outcome.problems).toEqual([]);
    expect(outcome.stored).toEqual({ traits: 1, genets: 2, places: 2, plants: 3, notes: 3 });
    const plants = await listRecords(programme.read, 'plants', {});
    expect(plants.rows.map(({ code, genet, place }) => [code, genet, place])).toEqual([
      ['101', 'Slate Heron', 'long bed'],
      ['102', 'Slate Heron', 'long bed'],
      ['103', 'Oat Loft', 'pond'],
    ]);
    const other = await bring(
      programme,
      text.replace('103;Oat Loft', '103;Slate Heron').replaceAll('2021', '2022'),
    );
    expect(other.problems).toMatchObject([
      {
        row: 4,
        column: 'Variety',
        problem: 'plant “103” is recorded as a plant of “Oat Loft”, the file says “Slate Heron”',
      },
    ]);
  });

  it('asks about dates that can be read in two ways instead of guessing', async () => {
    const programme = await store.make();
    await withHeight(programme);
    const text = 'plant,trait,on,value\nA/1,height,03/04/2021,41\n';
    const asked = await bring(programme, text, { kind: 'notes' });
    expect(asked.questions).toMatchObject([{ ask: 'date order', column: 'on' }]);
    expect(asked.questions[0]!.answers.map(({ value }) => value).sort()).toEqual(['dmy', 'mdy']);
    expect((await listRecords(programme.read, 'notes', {})).total).toBe(0);
    await bring(programme, text, { kind: 'notes', dateOrder: 'mdy' });
    expect((await listRecords(programme.read, 'notes', {})).rows[0]).toMatchObject({ on: '2021-03-04' });
  });

  it('knows a file that comes a second time, and facts that are there already', async () => {
    const programme = await store.make();
    await withHeight(programme);
    const path = file('plant,trait,on,value\nA/1,height,2021-05-20,41\n');
    const take = async (wishes: PlanWishes) =>
      takeIn(programme, [await openImport(programme, path, { kind: 'notes', ...wishes })], {
        by,
        store: true,
      });
    expect((await take({})).stored).toEqual({ notes: 1 });
    expect((await take({})).problems[0]!.problem).toMatch(/this very file was taken in on/);
    expect(await take({ again: true })).toMatchObject({ alreadyThere: 1, stored: {}, problemCount: 0 });
    const more = await bring(
      programme,
      'plant,trait,on,value\nA/1,height,2021-05-20,41\nA/1,height,2021-05-21,42\n',
      { kind: 'notes' },
    );
    expect(more).toMatchObject({ alreadyThere: 1, stored: { notes: 1 } });
  });

  it('refuses records that are there with other values, or changes them when told to', async () => {
    const programme = await store.make();
    await withHeight(programme);
    const refused = await bring(programme, 'code,name\nA,Slate Heron\n', { kind: 'genets' });
    expect(refused.problems[0]).toMatchObject({
      row: 2,
      column: 'name',
      problem: 'this genet is there already and says otherwise (name empty → Slate Heron)',
    });
    const changed = await bring(programme, 'code,name\nA,Slate Heron\nB,\n', {
      kind: 'genets',
      ifThere: 'change',
    });
    expect(changed).toMatchObject({ changed: 1, alreadyThere: 1, problemCount: 0 });
  });

  it('refuses codes given twice in one file and loops in parentage', async () => {
    const programme = await store.make();
    const twice = await bring(programme, 'code\nA\nB\nA\n', { kind: 'genets' });
    expect(twice.problems[0]).toMatchObject({
      row: 4,
      column: 'code',
      problem: '“A” stands in row 2 already',
    });
    const loop = await bring(programme, 'code,seed_parent\nA,B\nB,A\n', { kind: 'genets' });
    expect(loop.problems[0]!.row).toBe(2);
    expect(loop.problems[0]!.problem).toMatch(/own ancestor: A ← B ← A|own ancestor: B ← A ← B/);
    expect((await listRecords(programme.read, 'genets', {})).total).toBe(0);
  });

  it('does in a dry run all but storing', async () => {
    const programme = await store.make();
    await withHeight(programme);
    const text = 'plant,trait,on,value\nA/1,height,2021-05-20,41\n';
    expect(await bring(programme, text, { kind: 'notes' }, false)).toMatchObject({
      stored: { notes: 1 },
      first: [{ value: 41 }],
    });
    expect(await bring(programme, 'code,seed_parent\nD,A\n', { kind: 'genets' }, false)).toMatchObject({
      stored: { genets: 1 },
    });
    expect((await listRecords(programme.read, 'notes', {})).total).toBe(0);
    expect((await listRecords(programme.read, 'genets', {})).total).toBe(2);
  });

  it('dates notes of a file that holds years alone by a day that the user names', async () => {
    const programme = await store.make();
    await withHeight(programme);
    const text = 'genet,year,height\nA,2021,41\nB,2020,39\n';
    expect((await bring(programme, text, {})).questions[0]).toMatchObject({ ask: 'year day' });
    await bring(programme, text, { yearDay: '08-15' });
    const { rows } = await listRecords(programme.read, 'notes', {});
    expect(rows.map(({ genet, on, value }) => [genet, on, value])).toEqual([
      ['A', '2021-08-15', 41],
      ['B', '2020-08-15', 39],
    ]);
  });

  it('keeps a column of numbers one of numbers where a few cells say otherwise, and tells those', async () => {
    const programme = await store.make();
    const text =
      'Genet;Date;Height (cm)\nA;2021-06-01;92,5\nB;2021-06-01;not yet\nC;2021-06-01;77\nD;2021-06-01;93?\nE;2021-06-01;78\n';
    const outcome = await bring(programme, text, { kind: 'notes', make: ['genets', 'traits'] });
    expect(outcome.problems.map(({ row, column, problem }) => [row, column, problem])).toEqual([
      [5, 'Height (cm)', expect.stringContaining('“93?” is not a number')],
    ]);
    const mended = await bring(programme, text.replace('93?', '93'), {
      kind: 'notes',
      make: ['genets', 'traits'],
    });
    expect(mended.problems).toEqual([]);
    const { rows } = await listRecords(programme.read, 'traits', {});
    expect(rows).toMatchObject([{ code: 'height', sort: 'measured', unit: 'cm' }]);
    const notes = await listRecords(programme.read, 'notes', {});
    expect(notes.rows.map(({ value, state }) => value ?? state).sort()).toEqual([
      77,
      78,
      92.5,
      93,
      'not yet',
    ]);
  });

  it('takes one file as two kinds, but not twice as one', async () => {
    const programme = await store.make();
    const path = file('genet,on,height\nA,2021-06-01,80\nB,2021-06-01,81\n');
    const take = async (wishes: PlanWishes) =>
      takeIn(programme, [await openImport(programme, path, wishes)], { by, store: true });
    const asGenets = { kind: 'genets' as const, columns: [{ field: 'code' }, null, null] };
    expect(await take(asGenets)).toMatchObject({ problemCount: 0, stored: { genets: 2 } });
    expect(await take({ kind: 'notes' })).toMatchObject({ problemCount: 0, stored: { notes: 2, traits: 1 } });
    expect((await take({ kind: 'notes' })).problems[0]!.problem).toMatch(/this very file was taken in/);
  });

  it('refuses cells beyond the headers, and two columns under one header', async () => {
    const programme = await store.make();
    await withHeight(programme);
    const beyond = await bring(programme, 'genet,on,height\nA,2025-06-13,12,345\nB,2025-06-13,40\n', {
      kind: 'notes',
    });
    expect(beyond.problems).toMatchObject([
      { row: 2, problem: expect.stringContaining('more cells in this row than headers') },
    ]);
    const twice = await bring(programme, 'genet,on,height,height\nA,2025-06-13,36,37\n', { kind: 'notes' });
    expect(twice.problems).toMatchObject([
      { row: 1, column: 'height', problem: expect.stringContaining('two columns are headed “height”') },
    ]);
    expect((await listRecords(programme.read, 'notes', {})).total).toBe(0);
  });
});
