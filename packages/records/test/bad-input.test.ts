import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { usualSettings } from '@keelrow/breeding/facts';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  openImport,
  openProgramme,
  type PlanWishes,
  type Programme,
  TableError,
  takeIn,
} from '../src/index.ts';
import { keelrow, run, support } from './support/command.ts';
import { plantSmallGarden } from './support/small-files.ts';

const by = { person: null, device: null, via: 'import' as const };
let root: string;
let folder: string;
let programme: Programme;
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'keelrow-bad-'));
  folder = join(root, 'garden');
  programme = await openProgramme(folder, usualSettings);
  await plantSmallGarden(programme);
});
afterAll(async () => {
  await programme.close();
  rmSync(root, { recursive: true, force: true });
});

let files = 0;
function file(content: string | Buffer, ending = 'csv'): string {
  const path = join(root, `sheet-${++files}.${ending}`);
  writeFileSync(path, content);
  return path;
}

const state = () => run(process.execPath, [support('look.mjs'), join(folder, 'keelrow.sqlite')]).out;
let before: string;
beforeEach(() => {
  before = state();
  expect(before).toContain('"integrity":"ok"');
});

const take = async (path: string, wishes: PlanWishes) =>
  takeIn(programme, [await openImport(programme, path, wishes)], { by, store: true });

const header = 'plant,trait,on,value\n';

describe('a file with something wrong in it', () => {
  it.each<[string, string, { row: number | null; column: string | null; problem: RegExp; remedy?: RegExp }]>([
    [
      'an unknown plant',
      `${header}Z/9,height,2021-05-20,41\n`,
      { row: 2, column: 'plant', problem: /there is no plant “Z\/9”/, remedy: /spelling/ },
    ],
    [
      'an unknown trait',
      `${header}A/1,girth,2021-05-20,41\n`,
      { row: 2, column: 'trait', problem: /there is no trait “girth”/ },
    ],
    [
      'a number outside the trait’s limits',
      `${header}A/1,height,2021-05-20,410\n`,
      { row: 2, column: 'value', problem: /410 cm is above the most for Height, 300 cm/ },
    ],
    [
      'a number below the trait’s limits',
      `${header}A/1,height,2021-05-20,2\n`,
      { row: 2, column: 'value', problem: /2 cm is below the least for Height, 5 cm/ },
    ],
    [
      'a word where a number belongs',
      `${header}A/1,height,2021-05-20,tall\n`,
      { row: 2, column: 'value', problem: /“tall” is not a number/ },
    ],
    [
      'a date to come',
      `${header}A/1,height,2399-05-20,41\n`,
      { row: 2, column: 'on', problem: /2399-05-20 lies in the future/, remedy: /is the year right/ },
    ],
    [
      'a day that the calendar lacks',
      `${header}A/1,height,2021-02-30,41\n`,
      { row: 2, column: 'on', problem: /2021-02-30/ },
    ],
    [
      'a class that is none',
      `${header}A/1,stem,2021-05-20,hairy\n`,
      { row: 2, column: 'value', problem: /“hairy” is not a class of Stem; the classes are bare, leafy/ },
    ],
    [
      'no value',
      `${header}A/1,height,2021-05-20,\n`,
      { row: 2, column: 'value', problem: /has no value/, remedy: /state/ },
    ],
    [
      'a note on nothing',
      `${header},height,2021-05-20,41\n`,
      { row: 2, column: 'plant', problem: /it is not said what the note is on/ },
    ],
    [
      'a required column missing',
      'plant,on,value\nA/1,2021-05-20,41\n',
      { row: null, column: null, problem: /no column holds “trait”/, remedy: /say which column/ },
    ],
    [
      'the same row twice',
      `${header}${'A/1,height,2021-05-20,41\n'.repeat(2)}`,
      { row: 3, column: 'on', problem: /says the same as row 2/, remedy: /take out one/ },
    ],
    [
      'decimal marks of two sorts',
      `${header}A/1,height,2021-05-20,"41,5"\nB/1,height,2021-05-20,41.5\n`,
      { row: null, column: 'value', problem: /decimal point.*comma/ },
    ],
    [
      'a number in a unit that does not fit',
      'plant,on,Height (kg)\nA/1,2021-05-20,41\n',
      { row: 2, column: 'Height (kg)', problem: /kg cannot be turned into cm/, remedy: /write it in cm/ },
    ],
  ])('%s is told by row and column, and nothing is stored', async (_, text, told) => {
    const outcome = await take(file(text), { kind: 'notes' });
    expect(outcome.problems).toMatchObject([
      { row: told.row, column: told.column, problem: expect.stringMatching(told.problem) },
    ]);
    if (told.remedy) expect(outcome.problems[0]!.remedy).toMatch(told.remedy);
    expect(state()).toBe(before);
  });

  it('that came before is known again', async () => {
    const path = file(`${header}A/1,height,2021-05-20,41\n`);
    expect(await take(path, { kind: 'notes' })).toMatchObject({ stored: { notes: 1 } });
    const stored = state();
    expect(stored).not.toBe(before);
    const again = await take(path, { kind: 'notes' });
    expect(again.problems).toMatchObject([
      {
        row: null,
        problem: expect.stringMatching(/^this very file was taken in on \d{4}-/),
        remedy: expect.stringContaining('nothing needs to be done'),
      },
    ]);
    expect(state()).toBe(stored);
  });
});

describe('a file that is no table', () => {
  const zip = Buffer.concat([Buffer.from('PK\x03\x04'), Buffer.alloc(400, 7)]);
  const picture = Buffer.from('89504e470d0a1a0a0000000d4948445200000001000000010806000000', 'hex');
  it.each<[string, Buffer | string, string]>([
    ['an empty file', '', 'csv'],
    ['a picture', picture, 'csv'],
    ['a broken archive', zip, 'xlsx'],
    ['a printed page', '%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n<<>>\nendobj\n', 'csv'],
    ['zeros', Buffer.alloc(5000), 'csv'],
    ['a quotation mark that never ends', `${header}"A/1,height,2021-05-20,41\n`.repeat(5), 'csv'],
  ])('%s is refused in words with what would mend it', async (_, content, ending) => {
    const refused = await take(file(content, ending), {}).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(TableError);
    const { problem, remedy } = refused as TableError;
    expect(problem.length).toBeGreaterThan(10);
    expect(remedy.length).toBeGreaterThan(5);
    expect(`${problem} ${remedy}`).not.toMatch(/Error|undefined| at .*:\d+/);
    expect(state()).toBe(before);
  });
});

describe('the command', () => {
  const twoFaults = `${header}Z/9,height,2021-05-20,41\nA/1,height,2021-05-20,900\n`;

  it('ends with status 2 and names file, row and column', () => {
    const [first, second] = [file(`${header}A/1,height,2021-05-27,44\n`), file(twoFaults)];
    const { status, out, said } = keelrow('import', 'notes', first, second, '--data', folder);
    expect(status).toBe(2);
    expect(said).toMatch(new RegExp(`sheet-${files}.csv, row 2, column plant: there is no plant “Z/9”`));
    expect(said).toMatch(new RegExp(`sheet-${files}.csv, row 3, column value: 900 cm is above the most`));
    expect(`${out}${said}`).not.toMatch(/ at .*\.js:\d+|Error:/);
    expect(state()).toBe(before);
  });

  it('names the file though it is the only one', () => {
    const { status, said } = keelrow('import', 'notes', file(twoFaults), '--data', folder);
    expect(status).toBe(2);
    expect(said).toMatch(new RegExp(`sheet-${files}.csv, row 2, column plant`));
  });

  it('with --json prints the outcome as JSON on standard output alone, with status 2', () => {
    const { status, out, said } = keelrow('import', 'notes', file(twoFaults), '--data', folder, '--json');
    expect(status).toBe(2);
    expect(JSON.parse(out)).toMatchObject({
      done: false,
      problemCount: 2,
      problems: [
        { file: `sheet-${files}.csv`, row: 2, column: 'plant' },
        { file: `sheet-${files}.csv`, row: 3, column: 'value' },
      ],
    });
    expect(said).toBe('');
    expect(state()).toBe(before);
  });

  it.each<[string, () => string[], 1 | 2, RegExp]>([
    ['a kind that is none', () => ['import', 'plant', file(twoFaults)], 2, /“plant” is no kind of record/],
    [
      'a file that is not there',
      () => ['import', 'notes', join(root, 'gone.csv')],
      2,
      /there is no file .*gone\.csv/,
    ],
    ['a file that is no table', () => ['import', 'notes', file(Buffer.alloc(900))], 2, /\S+/],
    ['a folder for a file', () => ['import', 'notes', root], 2, /is not a file/],
    [
      'a programme that is not there',
      () => ['import', 'notes', file(twoFaults), '--data', join(root, 'none')],
      1,
      /there is no programme in .*none/,
    ],
    [
      'a column that the file lacks',
      () => ['import', 'notes', file(twoFaults), '--map', 'Höhe=value'],
      2,
      /has no column “Höhe”/,
    ],
  ])('tells of %s on standard error, as text and as JSON', (_, args, status, words) => {
    const given = args();
    const data = given.includes('--data') ? [] : ['--data', folder];
    const asText = keelrow(...given, ...data);
    expect([asText.status, asText.out]).toEqual([status, '']);
    expect(asText.said).toMatch(words);
    expect(asText.said).not.toMatch(/ at .*\.js:\d+|not foreseen/);
    const asJson = keelrow(...given, ...data, '--json');
    expect([asJson.status, asJson.out]).toEqual([status, '']);
    expect(JSON.parse(asJson.said)).toMatchObject({ error: { problem: expect.stringMatching(words) } });
    expect(state()).toBe(before);
  });

  it('with --dry-run says what it would store and stores nothing', () => {
    const path = file(`${header}A/1,height,2021-05-28,44\n`);
    const { status, out } = keelrow('import', 'notes', path, '--data', folder, '--dry-run', '--json');
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ dryRun: true, done: false, stored: { notes: 1 } });
    expect(state()).toBe(before);
    const stored = keelrow('import', 'notes', path, '--data', folder, '--json');
    expect(JSON.parse(stored.out)).toMatchObject({ done: true, stored: { notes: 1 } });
    expect(state()).not.toBe(before);
  });
});
