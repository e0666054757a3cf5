import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type AnyRow, fieldsOf, kindNames, usualSettings } from '@keelrow/breeding/facts';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { newPlace } from '../../../tests/support/stores.ts';
import {
  act,
  add,
  change,
  everyRecord,
  exportFolder,
  exportWorkbook,
  fillWithDemo,
  openProgramme,
  openWhole,
  type Programme,
  readSettings,
  takeIn,
  toFile,
  writeSettings,
} from '../src/index.ts';
import { arbitraryRecords, problemsOf, type Records } from './support/arbitrary-records.ts';

const by = { person: null, device: null, via: 'import' as const };
type Format = 'csv' | 'xlsx';
type Units = 'metric' | 'us';

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'keelrow-round-'));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

let made = 0;
const newFolder = (): string => {
  const folder = join(root, String(++made));
  mkdirSync(folder);
  return folder;
};

/** Runs with a new programme, on the database asked for, and takes it away again. */
async function within<Result>(
  backend: 'sqlite' | 'postgres',
  units: Units,
  work: (programme: Programme) => Promise<Result>,
): Promise<Result> {
  const { where, remove } = await newPlace(backend);
  const programme = await openProgramme(where, { ...usualSettings, units });
  try {
    return await work(programme);
  } finally {
    await programme.close();
    await remove();
  }
}

/** All standing records of all kinds, in the order of their ids. */
async function everything(programme: Programme): Promise<Record<string, AnyRow[]>> {
  const all: Record<string, AnyRow[]> = {};
  for (const kind of kindNames) {
    const rows: AnyRow[] = [];
    for await (const page of everyRecord(programme.read, kind)) rows.push(...page);
    if (rows.length > 0) all[kind] = rows;
  }
  return all;
}

/** Stores records kind by kind; what refers to a kind that comes later is filled in at the end, as one would by hand. */
async function store(programme: Programme, records: Records): Promise<void> {
  await act(programme, by, async (doing) => {
    const later: (() => Promise<unknown>)[] = [];
    for (const [at, kind] of kindNames.entries()) {
      const ahead = fieldsOf(kind)
        .filter(([, field]) => field.type === 'reference' && kindNames.indexOf(field.to as 'genets') > at)
        .map(([name]) => name);
      const empty = Object.fromEntries(ahead.map((name) => [name, null]));
      await add(
        doing,
        kind,
        records.get(kind)!.map((row) => ({ ...row, ...empty })),
      );
      for (const row of records.get(kind)!) {
        const filled = Object.fromEntries(ahead.map((name) => [name, row[name] ?? null]));
        if (ahead.length > 0) later.push(() => change(doing, kind, row.id, filled));
      }
    }
    for (const fill of later) await fill();
  });
}

/** Writes a programme out and takes the files into a new one, which is then read in full. */
async function throughFiles(
  from: Programme,
  format: Format,
  into: 'sqlite' | 'postgres',
  units: Units,
): Promise<Record<string, AnyRow[]>> {
  const folder = newFolder();
  if (format === 'csv') await exportFolder(from, folder);
  else await toFile(join(folder, 'whole.xlsx'), (sink) => exportWorkbook(from, sink));
  const paths = readdirSync(folder).map((name) => join(folder, name));
  return within(into, units, async (programme) => {
    const outcome = await takeIn(programme, await openWhole(programme, paths, {}), { by, store: true });
    expect(outcome).toMatchObject({ problems: [], questions: [], missing: [] });
    rmSync(folder, { recursive: true });
    return everything(programme);
  });
}

const ways: readonly (readonly [Format, Units])[] = [
  ['csv', 'metric'],
  ['csv', 'us'],
  ['xlsx', 'metric'],
  ['xlsx', 'us'],
];

describe('records of every kind, written out and taken in, are the same field by field', () => {
  it('the generator makes only records that the catalogue accepts, and every kind of them', () => {
    fc.assert(
      fc.property(arbitraryRecords, (records) => {
        expect(problemsOf(records)).toEqual([]);
        expect([...records.keys()]).toEqual(kindNames);
      }),
      { seed: 1, numRuns: 100 },
    );
  });

  it.each(ways)('as %s in %s units', async (format, units) => {
    await fc.assert(
      fc.asyncProperty(arbitraryRecords, async (records) => {
        await within('sqlite', units, async (programme) => {
          await store(programme, records);
          const there = await everything(programme);
          expect(there).toEqual(Object.fromEntries(kindNames.map((kind) => [kind, records.get(kind)])));
          expect(await throughFiles(programme, format, 'sqlite', units)).toEqual(there);
        });
      }),
      {
        seed: 20 + ways.findIndex((way) => way[0] === format && way[1] === units),
        numRuns: 40,
        endOnFailure: true,
      },
    );
  });

  it.skipIf(!inject('postgres')).each(['csv', 'xlsx'] as const)(
    'as %s from SQLite to PostgreSQL and back',
    async (format) => {
      await fc.assert(
        fc.asyncProperty(arbitraryRecords, async (records) => {
          const there = await within('sqlite', 'metric', async (programme) => {
            await store(programme, records);
            return everything(programme);
          });
          await within('postgres', 'metric', async (programme) => {
            await store(programme, records);
            expect(await everything(programme)).toEqual(there);
            expect(await throughFiles(programme, format, 'sqlite', 'metric')).toEqual(there);
          });
          await within('sqlite', 'us', async (programme) => {
            await store(programme, records);
            expect(await throughFiles(programme, format, 'postgres', 'us')).toEqual(there);
          });
        }),
        { seed: 40, numRuns: 5, endOnFailure: true },
      );
    },
  );
});

describe('a whole demo garden, written out and taken in', () => {
  it.each(ways)('is the same as %s in %s units', async (format, units) => {
    await within('sqlite', units, async (programme) => {
      await fillWithDemo(programme, { ...by, via: 'demo' }, {}, { seed: 7, genets: 60, years: 4 });
      // The demo speaks its own units.
      const settings = await readSettings(programme.read);
      await writeSettings(programme.write, { ...settings!, units });
      const there = await everything(programme);
      expect(Object.keys(there).length).toBeGreaterThan(20);
      expect(there.notes!.length).toBeGreaterThan(200);
      expect(await throughFiles(programme, format, 'sqlite', units)).toEqual(there);
    });
  });
});
