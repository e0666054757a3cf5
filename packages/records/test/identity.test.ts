import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import {
  act,
  add,
  type Programme,
  readByCode,
  readGenetPage,
  readPlantIndex,
  readTraitNotes,
  replace,
  withdraw,
} from '../src/index.ts';

const by = { person: null, device: null, via: 'browser' as const };

/** Three genets; two plants labelled as the first, with a note each year from 2019 to 2022. */
async function plantTwo(programme: Programme): Promise<void> {
  await act(programme, by, async (doing) => {
    await add(doing, 'traits', [{ code: 'height', name: 'Height', sort: 'measured', unit: 'cm' }]);
    await add(doing, 'genets', [{ code: 'A' }, { code: 'B' }, { code: 'C' }]);
    await add(doing, 'plants', [
      { code: 'A/1', genet: 'A', planted_on: '2018-04-01' },
      { code: 'A/2', genet: 'A', planted_on: '2018-04-01' },
    ]);
    const years = [2019, 2020, 2021, 2022];
    await add(
      doing,
      'notes',
      ['A/1', 'A/2'].flatMap((plant, at) =>
        years.map((year) => ({ plant, trait: 'height', on: `${year}-06-01`, value: year - 2000 + 100 * at })),
      ),
    );
    await add(doing, 'notes', [{ genet: 'B', trait: 'height', on: '2021-06-02', value: 7 }]);
  });
}

const mend = (
  programme: Programme,
  genet: string,
  on: string,
  earlier_notes: 'move' | 'stay',
  plant = 'A/1',
) =>
  act(
    programme,
    by,
    async (doing) => (await add(doing, 'identities', [{ plant, genet, on, earlier_notes }]))[0]!,
  );

/** Values of the notes that the evaluation gets, by the code of the genet to which they belong. */
async function valuesByGenet(programme: Programme): Promise<Record<string, number[]>> {
  const read = (await readTraitNotes(programme.read, 'height'))!;
  const values: Record<string, number[]> = {};
  for (const { genet, value } of read.notes) {
    const { code } = read.genets.get(genet)!;
    values[code] = [...(values[code] ?? []), value].sort((a, b) => a - b);
  }
  return values;
}

const ofSecondPlant = [119, 120, 121, 122];

/** What the list of plants and the genet's own page say of the notes of a genet. */
async function countsShown(
  programme: Programme,
  code: string,
): Promise<{ list: number; page: number; plants: string[] }> {
  const row = (await readPlantIndex(programme.read)).find((genet) => genet.code === code)!;
  const page = await readGenetPage(programme.read, code);
  const counted = page.noteSummary.flatMap(({ byYear }) => byYear.map(({ notes }) => notes));
  return {
    list: row.notes,
    page: counted.reduce((sum, notes) => sum + notes, 0),
    plants: page.plants.map((plant) => plant.code),
  };
}

onBothStores('a plant found to be another genet', (store) => {
  it('takes all its notes along where earlier ones move', async () => {
    const programme = await store.make();
    await plantTwo(programme);
    await mend(programme, 'B', '2021-05-20', 'move');
    expect(await valuesByGenet(programme)).toEqual({ A: ofSecondPlant, B: [7, 19, 20, 21, 22] });
    expect(await countsShown(programme, 'A')).toEqual({ list: 4, page: 4, plants: ['A/2'] });
    expect(await countsShown(programme, 'B')).toEqual({ list: 5, page: 5, plants: ['A/1'] });
  });

  it('takes the notes of that day and later alone where earlier ones stay', async () => {
    const programme = await store.make();
    await plantTwo(programme);
    await mend(programme, 'B', '2021-06-01', 'stay');
    expect(await valuesByGenet(programme)).toEqual({ A: [19, 20, ...ofSecondPlant], B: [7, 21, 22] });
    expect(await countsShown(programme, 'A')).toEqual({ list: 6, page: 6, plants: ['A/2'] });
    expect(await countsShown(programme, 'B')).toEqual({ list: 3, page: 3, plants: ['A/1'] });
    const page = await readGenetPage(programme.read, 'B');
    expect(page.plants).toMatchObject([{ code: 'A/1', labelledAs: 'A' }]);
  });

  it.each<[string, 'move' | 'stay', 'move' | 'stay', Record<string, number[]>]>([
    ['staying twice', 'stay', 'stay', { A: [19, ...ofSecondPlant], B: [7, 20, 21], C: [22] }],
    ['moving, then staying', 'move', 'stay', { A: ofSecondPlant, B: [7, 19, 20, 21], C: [22] }],
    ['staying, then moving', 'stay', 'move', { A: ofSecondPlant, B: [7], C: [19, 20, 21, 22] }],
  ])('may be mended again: %s', async (_, first, second, expected) => {
    const programme = await store.make();
    await plantTwo(programme);
    // The later finding is entered first: it is the day that counts.
    await mend(programme, 'C', '2022-01-01', second);
    await mend(programme, 'B', '2020-01-01', first);
    expect(await valuesByGenet(programme)).toEqual(expected);
    for (const [code, values] of Object.entries(expected)) {
      expect([code, await countsShown(programme, code)]).toMatchObject([
        code,
        { list: values.length, page: values.length },
      ]);
    }
  });

  it('goes back when the finding is withdrawn, and elsewhere when it is corrected', async () => {
    const programme = await store.make();
    await plantTwo(programme);
    const finding = await mend(programme, 'B', '2020-01-01', 'move');
    const corrected = await act(programme, by, (doing) =>
      replace(doing, 'identities', finding, {
        plant: 'A/1',
        genet: 'C',
        on: '2020-01-01',
        earlier_notes: 'move',
      }),
    );
    expect(await valuesByGenet(programme)).toEqual({ A: ofSecondPlant, B: [7], C: [19, 20, 21, 22] });
    await act(programme, by, (doing) => withdraw(doing, 'identities', corrected, 'the label was right'));
    expect(await valuesByGenet(programme)).toEqual({ A: [19, 20, 21, 22, ...ofSecondPlant], B: [7] });
  });
});

onBothStores('a volunteer', (store) => {
  it('has guessed parents on both sides with their chances, as its list and page show them', async () => {
    const programme = await store.make();
    await act(programme, by, (doing) =>
      add(doing, 'genets', [
        { code: 'A' },
        { code: 'B' },
        {
          code: 'V',
          origin: 'volunteer',
          seed_parent: [
            { genet: 'A', chance: 0.7 },
            { genet: 'B', chance: 0.2 },
          ],
          pollen_parent: [
            { genet: 'B', chance: 0.5 },
            { genet: 'self', chance: 0.1 },
          ],
        },
      ]),
    );
    const { genet, family } = await readGenetPage(programme.read, 'V');
    expect(genet).toMatchObject({
      origin: 'volunteer',
      seedParent: 'A:0.7;B:0.2',
      pollenParent: 'B:0.5;self:0.1',
    });
    const ids = new Map(
      await Promise.all(
        ['A', 'B', 'V'].map(
          async (code) => [code, (await readByCode(programme.read, 'genets', code))!.id] as const,
        ),
      ),
    );
    const links = family.links.filter(({ child }) => child === ids.get('V'));
    const code = (id: string) => [...ids].find(([, known]) => known === id)![0];
    expect(
      links.map(({ parent, side, chance }) => [code(parent), side, Number(chance.toFixed(6))]).sort(),
    ).toEqual([
      ['A', 'seed', 0.7],
      ['A', 'self', 0.07],
      ['B', 'pollen', 0.5],
      ['B', 'seed', 0.2],
      ['B', 'self', 0.02],
    ]);
  });

  it('is refused where chances add up to more than one, or the seed parent is a self', async () => {
    const programme = await store.make();
    const make = (parents: object) =>
      act(programme, by, (doing) =>
        add(doing, 'genets', [{ code: 'A' }, { code: 'B' }, { code: 'V', ...parents }]),
      );
    await expect(
      make({
        seed_parent: [
          { genet: 'A', chance: 0.7 },
          { genet: 'B', chance: 0.4 },
        ],
      }),
    ).rejects.toThrow(/add up to 1\.1/);
    await expect(make({ seed_parent: [{ genet: 'self', chance: 1 }] })).rejects.toThrow(
      /belongs under the pollen parent/,
    );
  });
});
