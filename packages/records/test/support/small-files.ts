import type { KindName } from '@keelrow/breeding/facts';
import { act, add, type Programme } from '../../src/index.ts';

/** A small garden to which the files below fit. */
export async function plantSmallGarden(programme: Programme): Promise<void> {
  await act(programme, { person: null, device: null, via: 'command' }, async (doing) => {
    await add(doing, 'people', [{ code: 'MK' }]);
    await add(doing, 'taxa', [{ name: 'Lupinus polyphyllus' }]);
    await add(doing, 'places', [
      { code: 'home', sort: 'site' },
      { code: 'bed-4', sort: 'bed', within: 'home' },
    ]);
    await add(doing, 'traits', [
      { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', least: 5, most: 300 },
      { code: 'first-flower', name: 'First flower', sort: 'dated' },
      { code: 'stem', name: 'Stem', sort: 'classed', classes: ['bare', 'leafy'] },
    ]);
    await add(doing, 'genets', [{ code: 'A' }, { code: 'B', raised_in: 2018 }]);
    await add(doing, 'plants', [
      { code: 'A/1', genet: 'A', place: 'bed-4' },
      { code: 'B/1', genet: 'B' },
    ]);
    await add(doing, 'seed-lots', [{ code: 'S20-01' }]);
  });
}

/** Sound files of several kinds: header and rows. */
export const smallFiles: readonly {
  readonly kind: KindName;
  readonly rows: readonly (readonly string[])[];
}[] = [
  {
    kind: 'notes',
    rows: [
      ['plant', 'trait', 'on', 'value', 'by', 'remark'],
      ['A/1', 'height', '2021-05-20', '41.5', 'MK', 'windy'],
      ['B/1', 'height', '2021-05-20', '52', 'MK', ''],
      ['A/1', 'first-flower', '2021-06-01', '2021-05-28', '', ''],
      ['B/1', 'stem', '2021-06-01', 'bare', '', '"so called", and; more'],
    ],
  },
  {
    kind: 'notes',
    rows: [
      ['Plant', 'Date', 'Height (in)', 'First flower', 'Stem', 'Scent'],
      ['A/1', '20.5.2021', '16.5', '28.5.2021', 'bare', 'strong'],
      ['B/1', '21.5.2021', '20', '', 'leafy', ''],
      ['C/1', '21.5.2021', 'not yet', '', '', 'weak'],
    ],
  },
  {
    kind: 'genets',
    rows: [
      ['code', 'name', 'taxon', 'seed_parent', 'pollen_parent', 'origin', 'raised_in'],
      ['C', 'Slate Heron', 'Lupinus polyphyllus', 'A', 'B:0.6;self:0.2', 'seedling', '2020'],
      ['D', '', '', 'C', 'A', 'seedling', '2022'],
      ['B', '', '', '', '', '', '2018'],
    ],
  },
  {
    kind: 'plants',
    rows: [
      ['code', 'genet', 'place', 'east_m [ft]', 'planted_on', 'raised_as', 'gone_on'],
      ['A/2', 'A', 'bed-4', '3.5', '2020-04-02', 'cutting', ''],
      ['A/3', 'A', 'bed-4', '5', '2020-04-02', 'cutting', '2022-03-01'],
    ],
  },
  {
    kind: 'places',
    rows: [
      ['code', 'sort', 'within', 'length_m', 'latitude'],
      ['row-1', 'row', 'bed-5', '12', ''],
      ['bed-5', 'bed', 'home', '18,5', '48,2'],
    ],
  },
  {
    kind: 'weather',
    rows: [
      ['site', 'date', 'tmin_c', 'tmax_c', 'rain_mm'],
      ['home', '03/14/2021', '-2.5', '8', '0'],
      ['home', '03/15/2021', '1', '11.25', '4.2'],
      ['home', '03/16/2021', '', '', ''],
    ],
  },
  {
    kind: 'accessions',
    rows: [
      ['number', 'taxon', 'received', 'donor', 'quantity'],
      ['2021-001', 'Lupinus polyphyllus', '3/4/2021', 'Alder County seed exchange', '300 seeds'],
      ['2021-002', '', '5/4/2021', '', ''],
    ],
  },
  {
    kind: 'germination-tests',
    rows: [
      ['seed_lot', 'started_on', 'seeds', 'day', 'germinated', 'replicate'],
      ['S20-01', '2020-12-01', '25', '7', '3', '1'],
      ['S20-01', '2020-12-01', '25', '14', '21', '1'],
    ],
  },
  {
    kind: 'traits',
    rows: [
      ['code', 'name', 'sort', 'unit', 'least', 'most', 'classes'],
      ['width', 'Width', 'measured', 'cm', '5', '250', ''],
      ['keel', 'Keel', 'classed', '', '', '', 'white | yellow | blue'],
    ],
  },
];
