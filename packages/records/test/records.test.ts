import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import {
  act,
  add,
  change,
  historyOf,
  listRecords,
  type Programme,
  readByCode,
  readRecord,
  replace,
  withdraw,
} from '../src/index.ts';

const by = { person: null, device: null, via: 'command' as const };

/** A programme with a trait, a genet and a plant of it. */
async function small(programme: Programme): Promise<{ plant: string; trait: string; genet: string }> {
  return act(programme, by, async (doing) => {
    const [trait] = await add(doing, 'traits', [
      { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', least: 5, most: 300 },
    ]);
    const [genet] = await add(doing, 'genets', [{ code: 'A-1' }]);
    const [plant] = await add(doing, 'plants', [{ code: 'A-1/1', genet: 'A-1', planted_on: '2020-04-01' }]);
    return { plant: plant!, trait: trait!, genet: genet! };
  });
}

onBothStores('records', (store) => {
  it('gives back every field as it was stored, references as codes', async () => {
    const programme = await store.make();
    await small(programme);
    const row = {
      plant: 'A-1/1',
      trait: 'height',
      on: '2021-05-20',
      value: 41.5,
      state: 'seen',
      remark: 'windy; “quoted” — and ünïcode',
    };
    const [id] = await act(programme, by, (doing) => add(doing, 'notes', [row]));
    expect(await readRecord(programme.read, 'notes', id!)).toMatchObject({ ...row, id });
  });

  it('keeps what was there before a change, who made it and when', async () => {
    const programme = await store.make();
    const { genet } = await small(programme);
    const person = await act(
      programme,
      by,
      async (doing) => (await add(doing, 'people', [{ code: 'MK' }]))[0]!,
    );
    await act(programme, { ...by, person, via: 'browser', reason: 'label read again' }, (doing) =>
      change(doing, 'genets', genet, { name: 'Slate Heron', raised_in: 2019 }),
    );
    await act(programme, { ...by, person }, (doing) =>
      change(doing, 'genets', genet, { name: 'Slate Hern' }),
    );
    const history = await historyOf(programme.read, 'genets', genet);
    expect(history.map(({ what, by: who, fields }) => [what, who, fields])).toEqual([
      ['changed', 'MK', [{ field: 'name', before: 'Slate Heron', after: 'Slate Hern' }]],
      [
        'changed',
        'MK',
        [
          { field: 'name', before: null, after: 'Slate Heron' },
          { field: 'raised_in', before: null, after: '2019' },
        ],
      ],
      ['made', null, []],
    ]);
    expect(history[1]).toMatchObject({ via: 'browser', reason: 'label read again' });
  });

  it('never overwrites a note: a correction replaces it and both stay readable', async () => {
    const programme = await store.make();
    await small(programme);
    const note = { plant: 'A-1/1', trait: 'height', on: '2021-05-20', value: 415 / 10 };
    const [first] = await act(programme, by, (doing) => add(doing, 'notes', [note]));
    await expect(
      act(programme, by, (doing) => change(doing, 'notes', first!, { value: 50 })),
    ).rejects.toThrow(/never overwritten/);
    const second = await act(programme, by, (doing) =>
      replace(doing, 'notes', first!, { ...note, value: 51.4 }, 'tape misread'),
    );
    expect((await listRecords(programme.read, 'notes', {})).rows.map(({ value }) => value)).toEqual([51.4]);
    expect(await readRecord(programme.read, 'notes', first!)).toMatchObject({ value: 41.5 });
    const history = await historyOf(programme.read, 'notes', second);
    expect(history.map(({ what, reason }) => [what, reason])).toEqual(
      expect.arrayContaining([
        ['replaced', 'tape misread'],
        ['made', null],
      ]),
    );
    await expect(act(programme, by, (doing) => replace(doing, 'notes', first!, note))).rejects.toThrow(
      /replaced or withdrawn before/,
    );
  });

  it('withdraws with a reason only, and never gives the code out again', async () => {
    const programme = await store.make();
    const { plant } = await small(programme);
    await expect(act(programme, by, (doing) => withdraw(doing, 'plants', plant, ' '))).rejects.toThrow(
      /says why/,
    );
    await act(programme, by, (doing) => withdraw(doing, 'plants', plant, 'entered twice'));
    expect(await readByCode(programme.read, 'plants', 'A-1/1')).toBeNull();
    await expect(
      act(programme, by, (doing) => add(doing, 'plants', [{ code: 'A-1/1', genet: 'A-1' }])),
    ).rejects.toThrow(/never used again/);
  });

  it('stores a fact that arrives twice once', async () => {
    const programme = await store.make();
    await small(programme);
    const note = {
      id: '01900000-0000-7000-8000-000000000001',
      plant: 'A-1/1',
      trait: 'height',
      on: '2021-05-20',
      value: 40,
    };
    await act(programme, by, (doing) => add(doing, 'notes', [note]));
    await act(programme, by, (doing) => add(doing, 'notes', [note]));
    expect((await listRecords(programme.read, 'notes', {})).total).toBe(1);
  });

  it('refuses a loop in parentage by naming it', async () => {
    const programme = await store.make();
    await act(programme, by, async (doing) => {
      await add(doing, 'genets', [
        { code: 'A' },
        { code: 'B', seed_parent: [{ genet: 'A', chance: 1 }] },
        {
          code: 'C',
          seed_parent: [{ genet: 'B', chance: 0.6 }],
          pollen_parent: [{ genet: 'self', chance: 0.2 }],
        },
      ]);
    });
    const a = (await readByCode(programme.read, 'genets', 'A'))!.id;
    const loop = act(programme, by, (doing) =>
      change(doing, 'genets', a, { pollen_parent: [{ genet: 'C', chance: 0.1 }] }),
    );
    await expect(loop).rejects.toThrow(/own ancestor: (A ← C ← B ← A|C ← B ← A ← C|B ← A ← C ← B)/);
    expect((await readByCode(programme.read, 'genets', 'A'))!.pollen_parent).toEqual([]);
    const own = act(programme, by, (doing) =>
      change(doing, 'genets', a, { seed_parent: [{ genet: 'A', chance: 1 }] }),
    );
    await expect(own).rejects.toThrow('A would be its own parent');
  });

  it('keeps guessed parents on both sides with their chances', async () => {
    const programme = await store.make();
    const parents = {
      seed_parent: [
        { genet: 'A', chance: 0.7 },
        { genet: 'B', chance: 0.2 },
      ],
      pollen_parent: [
        { genet: 'B', chance: 0.5 },
        { genet: 'self', chance: 0.1 },
      ],
    };
    await act(programme, by, (doing) =>
      add(doing, 'genets', [{ code: 'V', origin: 'volunteer', ...parents }, { code: 'A' }, { code: 'B' }]),
    );
    expect(await readByCode(programme.read, 'genets', 'V')).toMatchObject(parents);
  });

  it('stores all of an act or nothing', async () => {
    const programme = await store.make();
    const half = act(programme, by, async (doing) => {
      await add(doing, 'genets', [{ code: 'A' }]);
      await add(doing, 'plants', [{ code: 'A/1', genet: 'no such genet' }]);
    });
    await expect(half).rejects.toThrow(/there is no genet “no such genet”/);
    expect((await listRecords(programme.read, 'genets', {})).total).toBe(0);
  });

  it('refuses a value outside the trait’s limits and a date to come', async () => {
    const programme = await store.make();
    await small(programme);
    const note = (fields: object) =>
      act(programme, by, (doing) =>
        add(doing, 'notes', [{ plant: 'A-1/1', trait: 'height', on: '2021-05-20', ...fields }]),
      );
    await expect(note({ value: 900 })).rejects.toThrow('900 cm is above the most for Height, 300 cm');
    await expect(note({ value: 90, on: '2399-01-01' })).rejects.toThrow(/lies in the future/);
    await expect(note({ value: 90, state: 'not yet' })).rejects.toThrow(/has no value/);
    await expect(note({})).rejects.toThrow(/no value/);
  });

  it('finds records by their texts', async () => {
    const programme = await store.make();
    await act(programme, by, (doing) =>
      add(doing, 'genets', [
        { code: 'A', remark: 'Dark STEMS' },
        { code: 'B', remark: 'pale' },
      ]),
    );
    const found = await listRecords(programme.read, 'genets', { search: 'dark stem' });
    expect(found.rows.map(({ code }) => code)).toEqual(['A']);
  });
});
