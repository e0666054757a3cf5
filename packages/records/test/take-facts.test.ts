import fc from 'fast-check';
import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import {
  act,
  add,
  historyOf,
  listRecords,
  type Programme,
  readByCode,
  takeFacts,
  withdraw,
} from '../src/index.ts';

const office = { person: null, device: null, via: 'command' as const };
let made = 0;
/** A UUIDv7 by number; its time lies in 2024. */
const newId = (): string => `018f0000-0000-7000-8000-${String(++made).padStart(12, '0')}`;

interface Garden {
  readonly programme: Programme;
  readonly mara: string;
  readonly joss: string;
}

/** A plant, a few traits and two people. */
async function garden(programme: Programme): Promise<Garden> {
  return act(programme, office, async (doing) => {
    const [mara, joss] = await add(doing, 'people', [
      { code: 'MK', role: 'recorder' },
      { code: 'JT', role: 'recorder' },
    ]);
    await add(doing, 'traits', [
      { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', least: 5, most: 300 },
      { code: 'look', name: 'Look', sort: 'pictured' },
    ]);
    await add(doing, 'genets', [{ code: 'A-1' }]);
    await add(doing, 'plants', [
      { code: 'A-1/1', genet: 'A-1' },
      { code: 'A-1/2', genet: 'A-1' },
    ]);
    return { programme, mara: mara!, joss: joss! };
  });
}

const note = (value: unknown, more: object = {}) => ({
  kind: 'notes' as const,
  id: newId(),
  row: { plant: 'A-1/1', trait: 'height', on: '2024-06-01', value, ...more } as never,
});
const sentBy = (person: string, mayCorrectOthers = false) => ({
  person,
  device: null,
  via: 'phone' as const,
  saidAt: '2024-06-01T09:00:00Z',
  mayCorrectOthers,
});
const standing = async (programme: Programme) =>
  (await programme.read.selectFrom('notes').select('id').where('ended_act', 'is', null).execute())
    .map(({ id }) => id)
    .sort();

onBothStores('facts handed over', (store) => {
  it('are stored by one act, each or its reason, and once however often they come', async () => {
    const { programme, mara } = await garden(await store.make());
    const facts = [
      note(80),
      note(3000),
      note(82, { plant: 'nobody' }),
      note(83),
      { ...note(84), id: 'no uuid' },
      note({ l: 40, a: 0, b: 0 }),
    ];
    const first = await takeFacts(programme, sentBy(mara), facts);
    expect(first.map(({ problem }) => problem?.slice(0, 30) ?? null)).toEqual([
      null,
      '3000 cm is above the most for ',
      'there is no plant “nobody”; st',
      null,
      '“no uuid” is not a UUID',
      'Height is a number in cm',
    ]);
    expect(await takeFacts(programme, sentBy(mara), [...facts, ...facts])).toEqual([...first, ...first]);
    expect(await standing(programme)).toEqual([facts[0]!.id, facts[3]!.id].sort());
    const acts = await programme.read
      .selectFrom('notes')
      .innerJoin('acts', 'acts.seq', 'notes.made_act')
      .select(['acts.seq', 'acts.via', 'acts.said_at', 'acts.person'])
      .execute();
    expect(new Set(acts.map(({ seq }) => seq)).size).toBe(1);
    expect(acts[0]).toMatchObject({ via: 'phone', said_at: '2024-06-01T09:00:00Z', person: mara });
  });

  it('bring a correction or withdrawal into force whether it comes before or after what it is about', async () => {
    const { programme, mara } = await garden(await store.make());
    const [a, c] = [note(80), note(90)];
    const b = { ...note(81), replaces: a.id };
    const away = {
      kind: 'withdrawal' as const,
      id: newId(),
      of: { kind: 'notes' as const, id: c.id },
      reason: 'wrong plant',
    };
    for (const fact of [b, away, c, a, away, b])
      expect(await takeFacts(programme, sentBy(mara), [fact])).toEqual([{ id: fact.id, problem: null }]);
    expect(await standing(programme)).toEqual([b.id]);
    expect((await historyOf(programme.read, 'notes', b.id)).map(({ what }) => what).sort()).toEqual([
      'made',
      'made',
      'replaced',
    ]);
    expect(await historyOf(programme.read, 'notes', c.id)).toMatchObject(
      expect.arrayContaining([expect.objectContaining({ what: 'withdrawn', reason: 'wrong plant' })]),
    );
  });

  it('leave what another person noted as it stands, and say so', async () => {
    const { programme, mara, joss } = await garden(await store.make());
    const [hers, ours] = [note(80), note(120)];
    await takeFacts(programme, sentBy(mara), [hers]);
    const correcting = { ...ours, replaces: hers.id };
    const striking = {
      kind: 'withdrawal' as const,
      id: newId(),
      of: { kind: 'notes' as const, id: hers.id },
      reason: 'no',
    };
    const taken = await takeFacts(programme, sentBy(joss), [correcting, striking]);
    expect(taken.map(({ problem }) => problem?.slice(0, 29) ?? null)).toEqual([
      null,
      'another person made this note',
    ]);
    expect(await standing(programme)).toEqual([hers.id, ours.id].sort());
    expect(await takeFacts(programme, sentBy(joss, true), [striking])).toMatchObject([{ problem: null }]);
    expect(await standing(programme)).toEqual([ours.id]);
  });

  it('name a plant that was withdrawn meanwhile by its code', async () => {
    const { programme, mara } = await garden(await store.make());
    const { id } = (await readByCode(programme.read, 'plants', 'A-1/2'))!;
    await act(programme, office, (doing) => withdraw(doing, 'plants', id, 'entered twice'));
    const [taken] = await takeFacts(programme, sentBy(mara), [note(80, { plant: id })]);
    expect(taken!.problem).toMatch(/^the plant “A-1\/2” was withdrawn in the office/);
  });

  it('keep a picture’s record however it comes: with its note, before it or after it', async () => {
    const { programme, mara } = await garden(await store.make());
    const hash = (digit: string) => digit.repeat(64);
    const picture = (digit: string) => ({
      kind: 'photos' as const,
      id: newId(),
      row: { hash: hash(digit), plant: 'A-1/1', trait: 'look', taken_on: '2024-06-01', bytes: 5000 },
    });
    const about = (digit: string) => note(null, { trait: 'look', photo: hash(digit) });
    const facts = [about('a'), picture('a'), about('b'), about('c'), picture('d')];
    const wrong = note(null, { trait: 'look', photo: hash('e'), plant: 'nobody' });
    expect(
      (await takeFacts(programme, sentBy(mara), [...facts, wrong])).map(({ problem }) => problem),
    ).toEqual([null, null, null, null, null, expect.stringContaining('nobody')]);
    expect(await takeFacts(programme, sentBy(mara), [picture('b'), picture('a')])).toMatchObject([
      { problem: null },
      { problem: null },
    ]);
    const { rows } = await listRecords(programme.read, 'photos', {});
    expect(
      rows.map(({ hash, plant, trait, taken_on, bytes, by }) => [hash, plant, trait, taken_on, bytes, by]),
    ).toEqual(
      ['a', 'b', 'c', 'd'].map((digit) => [
        hash(digit),
        'A-1/1',
        'look',
        '2024-06-01',
        digit === 'c' ? null : 5000,
        'MK',
      ]),
    );
  });

  it('are taken one by one where one of them spoils the whole batch', async () => {
    const { programme, mara } = await garden(await store.make());
    const hash = 'f'.repeat(64);
    const picture = {
      kind: 'photos' as const,
      id: newId(),
      row: { hash, plant: 'A-1/1', taken_on: '2024-06-01' },
    };
    await takeFacts(programme, sentBy(mara), [picture]);
    await act(programme, office, (doing) => withdraw(doing, 'photos', picture.id, 'a thumb before the lens'));
    const again = { ...picture, id: newId(), row: { ...picture.row, caption: 'better now' } };
    const facts = [note(80), again, note(null, { trait: 'look', photo: hash }), note(81)];
    const taken = await takeFacts(programme, sentBy(mara), facts);
    expect(taken.map(({ problem }) => problem)).toEqual([
      null,
      expect.stringContaining('withdrawn before'),
      expect.stringContaining('was withdrawn in the office'),
      null,
    ]);
    expect(await standing(programme)).toEqual([facts[0]!.id, facts[3]!.id].sort());
    const acts = await programme.read.selectFrom('notes').select('made_act').execute();
    expect(new Set(acts.map(({ made_act }) => made_act)).size).toBe(2);
  });

  it('come to stand alike in whatever order, batches and repeats they are sent by several phones at once', async () => {
    const { programme, mara, joss } = await garden(await store.make());
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.nat({ max: 1_000 }), { minLength: 12, maxLength: 30 }),
        fc.integer({ min: 1, max: 5 }),
        async (draws, atOnce) => {
          const before = await standing(programme);
          // A chain of corrections, a note withdrawn and notes alone, of two people.
          const people = [mara, joss].map((person) => {
            const chain = [note(50)];
            for (let step = 0; step < 3; step++)
              chain.push({ ...note(51 + step), replaces: chain.at(-1)!.id } as never);
            const gone = note(60);
            const alone = note(70);
            const away = {
              kind: 'withdrawal' as const,
              id: newId(),
              of: { kind: 'notes' as const, id: gone.id },
              reason: 'slip',
            };
            return { person, facts: [...chain, gone, alone, away], stands: [chain.at(-1)!.id, alone.id] };
          });
          await Promise.all(
            people.map(async ({ person, facts }) => {
              // Some are sent again and again in a drawn order; at the end all of them, as a phone would.
              const order = draws.map((draw) => facts[draw % facts.length]!);
              const batches = [];
              for (let at = 0; at < order.length; at += atOnce) batches.push(order.slice(at, at + atOnce));
              const asked = batches.map((batch) => takeFacts(programme, sentBy(person), batch));
              for (const taken of [
                ...(await Promise.all(asked)),
                await takeFacts(programme, sentBy(person), facts),
              ])
                expect(taken.every(({ problem }) => problem === null)).toBe(true);
            }),
          );
          const stands = people.flatMap((each) => each.stands);
          expect(await standing(programme)).toEqual([...before, ...stands].sort());
        },
      ),
      { seed: 4, numRuns: store.backend === 'sqlite' ? 40 : 12 },
    );
  });
});
