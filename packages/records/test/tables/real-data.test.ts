import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openTable } from '../../src/tables/index.ts';
import { finding, textsOf } from './reading-help.ts';

const folder = new URL('../../../../../shared/reference/realdata/', import.meta.url).pathname;

// source: row counts and column sums by Python 3.11's csv module (codec cp1252 for the fruit file) over the same files
describe('whole tables of real gardens and trials', () => {
  it.skipIf(!existsSync(folder)).each<[string, number, number, string | undefined, number | undefined]>([
    ['garden_records_vegetables/garden_coords.csv', 76, 3, 'x', 1431],
    ['garden_records_vegetables/garden_harvest.csv', 781, 5, 'weight', 432_255],
    ['garden_records_vegetables/garden_planting.csv', 93, 7, 'number_seeds_planted', 1683],
    ['garden_records_vegetables/garden_spending.csv', 65, 6, undefined, undefined],
    ['garden_records_vegetables/harvest_2021.csv', 726, 5, 'weight', 451_406],
    ['garden_records_vegetables/planting_2021.csv', 102, 7, 'number_seeds_planted', 2421],
    ['messy_fruit_bloom_cp1252/adamedor_sub.csv', 3069, 8, 'pheno', 243_095],
    ['germination_sylvan_seeds/TBMF_Database_raw.csv', 4012, 34, 'Germinated', 360_379],
  ])('reads %s', async (file, count, columns, summed, sum) => {
    const table = await openTable({ path: folder + file });
    const rows = await textsOf(table);
    expect(rows).toHaveLength(count);
    expect(table.headers).toHaveLength(columns);
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([columns]));
    if (summed !== undefined) {
      const at = table.headers.indexOf(summed);
      expect(rows.reduce((total, row) => total + (Number(row[at]) || 0), 0)).toBe(sum);
    }
  });

  it.skipIf(!existsSync(folder))('cleans the first column name of the seed database', async () => {
    const table = await openTable({ path: `${folder}germination_sylvan_seeds/TBMF_Database_raw.csv` });
    expect(table.headers[0]).toBe('Taxon');
    expect(finding(table, 'mark-in-header-removed')).toBeDefined();
  });
});
