import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { usualSettings } from '@keelrow/breeding/facts';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { newPlace } from '../../../tests/support/stores.ts';
import {
  type ColumnUse,
  countRecords,
  openImport,
  openProgramme,
  type PlanWishes,
  type Programme,
  takeIn,
} from '../src/index.ts';

// source: numbers of rows, of distinct values and sums by Python 3.11's csv module over the same files
const folder = fileURLToPath(new URL('../../../../shared/reference/realdata/', import.meta.url));
const by = { person: null, device: null, via: 'import' as const };

let programme: Programme;
let remove: () => Promise<void>;
beforeEach(async () => {
  const place = await newPlace('sqlite');
  remove = place.remove;
  programme = await openProgramme(place.where, usualSettings);
});
afterEach(async () => {
  await programme.close();
  await remove();
});

/** What a plan says of each column, shortly. */
async function proposal(file: string): Promise<Record<string, string>> {
  const { table, plan } = await openImport(programme, folder + file, {});
  const shown = (use: ColumnUse | null): string => {
    if (!use) return 'left out';
    if ('year' in use) return 'year';
    if ('field' in use) return use.field;
    return `${use.newTrait?.sort ?? 'known'} trait ${use.trait}${use.unit ? ` in ${use.unit}` : ''}`;
  };
  expect(plan.kind).toBe('notes');
  return Object.fromEntries(table.headers.map((header, index) => [header, shown(plan.columns[index]!)]));
}

const take = async (file: string, wishes: PlanWishes) =>
  takeIn(programme, [await openImport(programme, folder + file, wishes)], { by, store: true });

/** Everything that the programme holds of the kinds that an import of notes may make. */
const held = () => countRecords(programme.read, ['notes', 'genets', 'plants', 'traits', 'places']);
const nothing = { notes: 0, genets: 0, plants: 0, traits: 0, places: 0 };

describe.skipIf(!existsSync(folder))('real files as people keep them', () => {
  const harvest = 'garden_records_vegetables/garden_harvest.csv';

  it('a harvest book: a row a picking, the weight in a column', async () => {
    expect(await proposal(harvest)).toEqual({
      vegetable: 'written trait vegetable',
      variety: 'genet',
      date: 'on',
      weight: 'measured trait weight',
      units: 'written trait units',
    });
    const refused = await take(harvest, {});
    expect(refused).toMatchObject({ rows: 781, problemCount: 781 });
    expect(refused.problems[0]).toMatchObject({
      row: 2,
      column: 'variety',
      problem: 'there is no genet “reseed”',
    });
    expect(refused.missing).toMatchObject([{ kind: 'genets', count: 64, canMake: true }]);
    expect(await held()).toEqual(nothing);

    const stored = await take(harvest, { make: ['genets'] });
    expect(stored).toMatchObject({ problemCount: 0, stored: { genets: 64, traits: 3, notes: 3 * 781 } });
    // Many rows give the same weight of the same variety on the same day: all of them count.
    const { rows } = await sql<{ sum: number }>`
      select sum(n.value_number) as sum from notes n join traits t on t.id = n.trait where t.code = 'weight'`.execute(
      programme.read,
    );
    expect(rows).toEqual([{ sum: 432_255 }]);
  });

  it('a sowing book, with a row without its date and a row that stands there twice', async () => {
    const planting = 'garden_records_vegetables/garden_planting.csv';
    expect(await proposal(planting)).toMatchObject({
      plot: 'grown_at',
      variety: 'genet',
      date: 'on',
      number_seeds_planted: 'counted trait number-seeds-planted',
    });
    const refused = await take(planting, { make: ['genets', 'places'] });
    expect(refused.problems.map(({ row, column, problem }) => [row, column, problem]).sort()).toEqual([
      [52, 'date', 'this row says the same as row 51'],
      [81, 'date', 'on is missing: the day it was seen'],
    ]);
    expect(await held()).toEqual(nothing);
  });

  it('flowering of fruit cultivars by year in an older encoding', async () => {
    const fruit = 'messy_fruit_bloom_cp1252/adamedor_sub.csv';
    expect(await proposal(fruit)).toMatchObject({
      cultivar: 'genet',
      location: 'grown_at',
      year: 'year',
      pheno: 'measured trait pheno',
    });
    const asked = await take(fruit, { make: ['genets', 'places'] });
    expect(asked.questions).toMatchObject([{ ask: 'year day', column: 'year' }]);
    expect(asked.findings).toEqual([expect.stringContaining('Windows-1252')]);
    expect(await held()).toEqual(nothing);
    const stored = await take(fruit, { make: ['genets', 'places'], yearDay: '07-01' });
    expect(stored).toMatchObject({ problemCount: 0, stored: { genets: 117, places: 6, notes: 5 * 3069 } });
  });

  it('germination of woodland seed: 34 columns, two of which would have one name', async () => {
    const germination = 'germination_sylvan_seeds/TBMF_Database_raw.csv';
    expect(await proposal(germination)).toMatchObject({
      Taxon: 'plant',
      Year: 'year',
      Stratification_days: 'measured trait stratification in days',
      Stratification: 'written trait stratification-2',
      Germinated: 'measured trait germinated',
    });
    const refused = await take(germination, { make: ['plants'], yearDay: '07-01' });
    expect(refused.rows).toBe(4012);
    expect(refused.problemCount).toBeGreaterThan(1000);
    const columns = new Set(refused.problems.map(({ column }) => column));
    expect(columns).toContain('Container_size');
    expect(columns).not.toContain('Stratification');
    expect(refused.problems.find(({ column }) => column === 'Container_size')).toMatchObject({
      row: 3,
      problem: 'this is in cm, but the field has no unit',
      remedy: expect.stringContaining('give the trait a unit'),
    });
    expect(await held()).toEqual(nothing);
  });

  it.each([
    'garden_records_vegetables/garden_coords.csv',
    'garden_records_vegetables/garden_spending.csv',
    'messy_csv_dialects/MOBOTDarwinCore.csv',
    'messy_csv_dialects/csv_always_quoted.csv',
    'messy_csv_dialects/csv_incl_single_quotes.csv',
    'messy_csv_dialects/csv_optional_quotes_excel2008CSV.csv',
    'messy_csv_dialects/csv_quoted-unquoted_headers.csv',
    'messy_csv_dialects/csv_unquoted.txt',
    'messy_csv_dialects/csv_unquoted_coordinates.txt',
    'messy_csv_dialects/empty_line.tab',
  ])('%s, which holds no notes, is refused by place with what would mend it', async (file) => {
    for (const wishes of [{}, { make: ['plants', 'genets', 'places'] as const }]) {
      const refused = await take(file, wishes);
      expect(refused.problemCount).toBeGreaterThan(0);
      for (const { problem, remedy, row, column } of refused.problems) {
        expect(`${problem} ${remedy ?? ''}`).not.toMatch(/undefined|\[object|NaN/);
        expect(row !== null || column !== null || /no column holds “/.test(problem)).toBe(true);
      }
      expect(await held()).toEqual(nothing);
    }
  });
});
