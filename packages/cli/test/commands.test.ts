import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runKeelrow } from '../../../tests/support/running-keelrow.ts';

const folder = mkdtempSync(join(tmpdir(), 'keelrow-commands-'));
afterAll(() => rmSync(folder, { recursive: true }));
const nowhere = join(folder, 'nowhere');
const file = join(folder, 'genets.csv');
writeFileSync(file, 'code\nG1\n');

describe('keelrow', () => {
  it('says what it can do, on standard output', async () => {
    const { status, out, err } = await runKeelrow(['--help']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    for (const command of ['demo', 'serve', 'columns', 'import', 'export', 'estimate', 'fit'])
      expect(out).toMatch(new RegExp(`^  ${command} `, 'm'));
  });

  it.each([
    [['frobnicate'], "unknown command 'frobnicate'"],
    [['--what'], "unknown option '--what'"],
    [['columns', '--what'], "unknown option '--what'"],
    [['import'], "missing required argument 'kind'"],
    [['import', 'genets'], "missing required argument 'files'"],
    [['export', 'genets'], "required option '--to <path>' not specified"],
    [['fit', file], "required option '--response <column>' not specified"],
    [
      ['import', 'genets', file, '--date-order', 'backwards'],
      "option '--date-order <order>' argument 'backwards' is invalid",
    ],
    [['columns', 'daisies'], '“daisies” is no kind of record'],
    [['import', 'daisies', file, '--data', nowhere], '“daisies” is no kind of record'],
    [
      ['import', 'genets', file, '--make', 'daisies', '--data', nowhere],
      '“daisies” after --make is no kind of record',
    ],
    [['export', 'daisies', '--to', nowhere, '--data', nowhere], '“daisies” is no kind of record'],
    [
      ['import', 'genets', join(folder, 'gone.csv'), '--data', nowhere],
      `there is no file ${join(folder, 'gone.csv')}`,
    ],
    [['fit', join(folder, 'gone.csv'), '--response', 'y'], 'There is no file gone.csv.'],
    [
      ['serve', '--open', '--host', '0.0.0.0', '--data', nowhere],
      '--open is for this computer alone and cannot go with --host 0.0.0.0',
    ],
    [
      ['import', 'genets', file, '--begin', '--dry-run', '--data', nowhere],
      '--begin makes a programme and --dry-run stores nothing',
    ],
    [['serve', '--port', 'abc', '--data', nowhere], '“abc” is not a port'],
    [['serve', '--port', '70000', '--data', nowhere], '“70000” is not a port'],
  ])('%j is refused with status 2 and one clear line', async (args, words) => {
    const { status, out, err } = await runKeelrow(args);
    expect([status, out]).toEqual([2, '']);
    expect(err.split('\n')[0]).toContain(words);
    expect(err).not.toMatch(/^error:|\n +at /);
    expect(existsSync(nowhere)).toBe(false);
  });

  it.each([['import', 'genets', file], ['export', 'all', '--to', join(folder, 'out')], ['estimate']])(
    '%s needs a programme that is there: status 1',
    async (...args) => {
      const { status, out, err } = await runKeelrow([...args, '--data', nowhere]);
      expect([status, out]).toEqual([1, '']);
      expect(err).toMatch(new RegExp(`^there is no programme in ${nowhere}\n→ .*keelrow serve`));
      expect(existsSync(nowhere)).toBe(false);
    },
  );

  it('gives refusals as JSON on standard error where JSON is asked for', async () => {
    const { status, out, err } = await runKeelrow(['estimate', '--data', nowhere, '--json']);
    expect([status, out]).toEqual([1, '']);
    expect(JSON.parse(err)).toMatchObject({
      error: { problem: `there is no programme in ${nowhere}`, remedy: expect.stringContaining('--data') },
    });
  });

  it('lists kinds and their columns', async () => {
    const kinds: { kind: string; about: string }[] = JSON.parse(
      (await runKeelrow(['columns', '--json'])).out,
    );
    // Of the design's contract: every kind that import takes.
    for (const kind of 'taxa localities accessions genets plants moves places traits notes weather crosses pollinations pollen-lots harvests seed-lots germination-tests sowings batches batch-counts decisions briefs trials disclosures terms people'.split(
      ' ',
    ))
      expect(kinds.map((each) => each.kind)).toContain(kind);
    const { columns } = JSON.parse((await runKeelrow(['columns', 'traits', '--json'])).out);
    expect(columns.find(({ name }: { name: string }) => name === 'least')).toMatchObject({
      meaning: expect.any(String),
      required: false,
      unit: null,
      example: expect.any(String),
    });
    const { out } = await runKeelrow(['columns', 'notes']);
    expect(out).toMatch(/^column +unit +required +example +meaning$/m);
    expect(out).toMatch(/\nplant,genet,cross,.*\n2027-014-3\/1,/);
  });

  it('gives example rows that can be imported', async () => {
    const { out } = await runKeelrow(['columns', 'traits']);
    const [header, example] = out.trimEnd().split('\n').slice(-2);
    const traits = join(folder, 'traits.csv');
    writeFileSync(traits, `${header}\n${example}\n`);
    const ran = await runKeelrow(['import', 'traits', traits, '--data', join(folder, 'example'), '--begin']);
    expect(ran).toEqual({ status: 0, out: 'Stored 1 trait.\n', err: '' });
  });
});
