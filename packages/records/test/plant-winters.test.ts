import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import { act, add, type Programme, readPlantWinters, readTraitNotes } from '../src/index.ts';

const by = { person: null, device: null, via: 'browser' as const };

/** Days from the first of a month on, as text. */
const daysFrom = (year: number, month: number, count: number): string[] =>
  Array.from({ length: count }, (_, day) =>
    new Date(Date.UTC(year, month - 1, 1 + day)).toISOString().slice(0, 10),
  );

/** Two winters with weather, the second colder; notes on a plant that stays until July 2020. */
async function garden(programme: Programme): Promise<void> {
  await act(programme, by, async (doing) => {
    await add(doing, 'places', [
      { code: 'home', sort: 'site', latitude: 44 },
      { code: 'bed', sort: 'bed', within: 'home' },
    ]);
    await add(doing, 'place-conditions', [
      { place: 'bed', on: '2017-01-01', light: 'full sun', moisture: 'dry' },
      { place: 'bed', on: '2019-06-01', light: 'part shade' },
    ]);
    await add(doing, 'traits', [{ code: 'height', name: 'Height', sort: 'measured', unit: 'cm' }]);
    await add(doing, 'genets', [{ code: 'A', founder_group: 'north' }, { code: 'B' }]);
    const plant = { genet: 'A', place: 'bed', planted_on: '2018-04-01' };
    await add(doing, 'plants', [
      { ...plant, code: 'stays', east_m: 1.5, north_m: 0.4 },
      { ...plant, code: 'lost', gone_on: '2020-04-10' },
      { ...plant, code: 'thrown', gone_on: '2019-12-01' },
      { ...plant, code: 'late', planted_on: '2019-12-24' },
    ]);
    await add(doing, 'decisions', [{ plant: 'thrown', on: '2019-09-01', decision: 'discard' }]);
    await add(doing, 'weather', [
      ...daysFrom(2018, 11, 150).map((on, k) => ({ site: 'home', on, tmin_c: k === 60 ? -9 : 0 })),
      ...daysFrom(2019, 11, 150).map((on, k) => ({ site: 'home', on, tmin_c: k === 60 ? -19 : 0 })),
    ]);
    await add(
      doing,
      'notes',
      [2019, 2020].map((year) => ({ plant: 'stays', trait: 'height', on: `${year}-07-01`, value: 40 })),
    );
  });
}

onBothStores('plants through winters', (store) => {
  it('stood or were lost, with the lowest temperature; what was taken out does not count', async () => {
    const programme = await store.make();
    await garden(programme);
    const rows = await readPlantWinters(programme.read);
    const codes = new Map(
      (await programme.read.selectFrom('plants').select(['id', 'code']).execute()).map(({ id, code }) => [
        id,
        code,
      ]),
    );
    const told = rows
      .map(({ plant, winter, minimum, first, survived, origin }) =>
        [codes.get(plant), winter, minimum, first, survived, origin].join(' '),
      )
      .sort();
    // The winter in which a discarded plant went is left out, and a plant that came in midwinter did not stand through it.
    expect(told).toEqual([
      'lost 2019 -9 true true north',
      'lost 2020 -19 false false north',
      'stays 2019 -9 true true north',
      'stays 2020 -19 false true north',
      'thrown 2019 -9 true true north',
    ]);
  });

  it('and a note knows the place, light and moisture of its day', async () => {
    const programme = await store.make();
    await garden(programme);
    const { notes } = (await readTraitNotes(programme.read, 'height'))!;
    expect(notes.map(({ east, north, light, moisture }) => [east, north, light, moisture])).toEqual([
      [1.5, 0.4, 'part shade', 'dry'],
      [1.5, 0.4, 'part shade', 'dry'],
    ]);
  });
});
