import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { EstimatesReport } from '@keelrow/breeding/evaluation';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runKeelrow } from '../../../tests/support/running-keelrow.ts';

const folder = mkdtempSync(join(tmpdir(), 'keelrow-in-out-'));
afterAll(() => rmSync(folder, { recursive: true }));
const fileOf = (name: string, text: string) => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const garden = join(folder, 'garden');

async function done(...args: string[]): Promise<string> {
  const { status, out, err } = await runKeelrow(args);
  expect({ args, status, err }).toEqual({ args, status: 0, err: '' });
  return out;
}
const genetsIn = async (data: string): Promise<string> => {
  const to = join(folder, 'looked-at.csv');
  await done('export', 'genets', '--to', to, '--data', data);
  return readFileSync(to, 'utf8');
};

beforeAll(async () => {
  const traits = fileOf('traits.csv', 'code,name,sort,unit,least,most\nheight,Height,measured,cm,5,200\n');
  await done('import', 'traits', traits, '--data', garden, '--begin');
  await done('import', 'genets', fileOf('genets.csv', 'code\nG1\nG2\n'), '--data', garden);
});

describe('keelrow import', () => {
  it('says all that is wrong by file, row and column, and stores nothing of it', async () => {
    const notes = fileOf(
      'notes.csv',
      'genet,trait,on,value\nG1,height,2024-06-01,50\nG2,height,2024-06-01,5000\nG9,height,2024-06-01,20\nG1,height,2999-01-01,30\nG1,height,2024-06-02,tall\n',
    );
    const { status, out, err } = await runKeelrow(['import', 'notes', notes, '--data', garden]);
    expect([status, out]).toEqual([2, '']);
    for (const place of [
      'row 3, column value',
      'row 4, column genet',
      'row 5, column on',
      'row 6, column value',
    ])
      expect(err).toContain(`notes.csv, ${place}: `);
    expect(err).toMatch(/Nothing was stored: 4 problems, 0 questions\.\n$/);
    const json = await runKeelrow(['import', 'notes', notes, '--data', garden, '--json']);
    expect([json.status, json.err]).toEqual([2, '']);
    expect(JSON.parse(json.out)).toMatchObject({ done: false, problemCount: 4, stored: {} });
    const to = join(folder, 'none.csv');
    await done('export', 'notes', '--to', to, '--data', garden);
    expect(readFileSync(to, 'utf8').trim().split('\n')).toHaveLength(1);
  });

  it('--dry-run says what would be stored and stores nothing', async () => {
    const more = fileOf('more.csv', 'code\nG3\n');
    expect(await done('import', 'genets', more, '--data', garden, '--dry-run')).toBe(
      'Would store 1 genet.\n',
    );
    expect(await genetsIn(garden)).not.toContain('G3');
    expect(
      JSON.parse(await done('import', 'genets', more, '--data', garden, '--dry-run', '--json')),
    ).toMatchObject({
      dryRun: true,
      done: false,
      stored: { genets: 1 },
      problems: [],
    });
  });

  it('asks in which order dates are written, and is told by --date-order', async () => {
    const notes = fileOf('dates.csv', 'genet,trait,on,value\nG1,height,03/04/2024,50\n');
    const asked = await runKeelrow(['import', 'notes', notes, '--data', garden]);
    expect(asked.status).toBe(2);
    expect(asked.err).toContain('--date-order dmy  day, month, year: 03/04/2024 is 2024-04-03');
    expect(asked.err).toContain('Nothing was stored: 0 problems, 1 question.');
    const told = ['import', 'notes', notes, '--data', garden, '--date-order', 'mdy', '--json'];
    expect(JSON.parse(await done(...told)).stored).toEqual({ notes: 1 });
    await done('export', 'notes', '--to', join(folder, 'dated.csv'), '--data', garden);
    expect(readFileSync(join(folder, 'dated.csv'), 'utf8')).toContain('2024-03-04');
  });

  it('takes strange headers by --map, constants by --set, and makes what is missing by --make', async () => {
    const data = join(folder, 'strange');
    const sheet = fileOf('strange.csv', 'Pflanze;Höhe\nH1;41,5\nH2;52\n');
    const args = [
      'import',
      'notes',
      sheet,
      '--data',
      data,
      '--begin',
      '--make',
      'genets',
      'traits',
      '--set',
      'on=2024-06-05',
    ];
    const maps = ['--map', 'Pflanze=genet', 'Höhe=trait:hoehe', '--decimal', 'comma', '--json'];
    expect(JSON.parse(await done(...args, ...maps)).stored).toEqual({ genets: 2, traits: 1, notes: 2 });
    await done('export', 'notes', '--to', join(folder, 'set.csv'), '--data', data);
    expect(readFileSync(join(folder, 'set.csv'), 'utf8')).toMatch(/H1,.*hoehe,2024-06-05,.*41\.5/);
  });

  it.each([
    [['--map', 'Size=genet'], 'has no column “Size”'],
    [['--map', 'code'], '“code” after --map is not of the form name=value'],
    [['--set', 'on'], '“on” after --set is not of the form name=value'],
  ])('refuses %j', async (wrong, words) => {
    const ran = await runKeelrow([
      'import',
      'genets',
      join(folder, 'genets.csv'),
      '--data',
      garden,
      ...wrong,
    ]);
    expect([ran.status, ran.out]).toEqual([2, '']);
    expect(ran.err).toContain(words);
  });

  it('takes the same file once', async () => {
    const again = await runKeelrow(['import', 'genets', join(folder, 'genets.csv'), '--data', garden]);
    expect(again.status).toBe(2);
    expect(again.err).toMatch(/was taken in on/);
    const wanted = await runKeelrow([
      'import',
      'genets',
      join(folder, 'genets.csv'),
      '--data',
      garden,
      '--again',
    ]);
    expect(wanted).toEqual({ status: 0, out: 'Stored nothing new (2 there already).\n', err: '' });
  });
});

describe('the demo garden, made by keelrow demo --make-only', () => {
  const demo = join(folder, 'demo');
  beforeAll(async () => {
    const { status, out, err } = await runKeelrow(['demo', '--make-only', '--data', demo]);
    expect([status, out]).toEqual([0, '']);
    expect(err).toMatch(/invented nursery; all its data is simulated.*\nStored .*15 accessions, .* notes, /);
  });

  it('is not made twice', async () => {
    expect(await runKeelrow(['demo', '--make-only', '--data', demo])).toEqual({
      status: 0,
      out: '',
      err: '',
    });
  });

  it('is the same after export and import, file by file', async () => {
    const [first, second, copy] = ['first', 'second', 'copy'].map((name) => join(folder, name));
    await done('export', 'all', '--to', first!, '--data', demo);
    await done('import', 'all', first!, '--data', copy!, '--begin');
    await done('export', 'all', '--to', second!, '--data', copy!);
    const names = readdirSync(first!).filter((name) => name.endsWith('.csv'));
    expect(names.length).toBeGreaterThan(25);
    expect(readdirSync(second!).filter((name) => name.endsWith('.csv'))).toEqual(names);
    const rows = (at: string, name: string) => readFileSync(join(at, name), 'utf8').split('\n').sort();
    for (const name of names) expect(rows(second!, name), name).toEqual(rows(first!, name));
  });

  it('gives estimates, of one trait and of all, with nothing but JSON on standard output', async () => {
    const one: EstimatesReport = JSON.parse(
      await done('estimate', '--trait', 'height', '--data', demo, '--json'),
    );
    expect(one.trait).toMatchObject({ code: 'height', unit: 'cm' });
    expect(one.estimates.filter(({ notes }) => notes > 0).length).toBe(one.genets);
    // By their parents and sibs, genets without notes have estimates too.
    expect(one.kinship.used).toBe(true);
    expect(one.estimates.length).toBeGreaterThan(one.genets);
    const all: EstimatesReport[] = JSON.parse(await done('estimate', '--data', demo, '--json'));
    expect(all.length).toBeGreaterThan(10);
    expect(all.every(({ notes }) => notes > 0)).toBe(true);
    expect(all.find(({ trait }) => trait.code === 'height')).toEqual(one);
  });

  it('prints days as people say them', async () => {
    const out = await done('estimate', '--trait', 'first-flower', '--data', demo);
    expect(out).toMatch(/^First flower \(errors in days\): \d+ notes on \d+ genets\nTaken into account: /);
    expect(out).toMatch(
      /^ +1 .* \d{1,2} (May|Jun|Jul) +[\d.]+ +\d{1,2} (May|Jun|Jul) to \d{1,2} (May|Jun|Jul) +[+-]?[\d.]+ +[\d.]+ +\d+ /m,
    );
  });

  it('names the traits there are where one is not', async () => {
    const { status, err } = await runKeelrow(['estimate', '--trait', 'petals', '--data', demo]);
    expect(status).toBe(2);
    expect(err).toMatch(/^there is no trait “petals”\n→ the traits are .*height/);
  });
});
