import { createHash } from 'node:crypto';
import { act, add, change, type Programme, withdraw } from '@keelrow/records';
import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import type { FactsTaken, Holdings, Phones, Unsettled } from '../src/contract/index.ts';
import type { RunningServer } from '../src/index.ts';
import { Caller, owner, phoneOf, serve, smallGarden } from './serving-phones.ts';

const office = { person: null, device: null, via: 'command' as const };
const year = new Date().getUTCFullYear() - 1;
const day = `${year}-06-01`;
let made = 0;
const newId = (): string => `018f0000-0000-7000-8000-${String(++made).padStart(12, '0')}`;

interface Set {
  readonly programme: Programme;
  readonly server: RunningServer;
  readonly office: Caller;
  readonly ids: Record<string, string>;
}

const note = (ids: Record<string, string>, value: unknown, more: object = {}) => ({
  kind: 'notes',
  id: newId(),
  row: { plant: ids.one, trait: ids.height, on: day, value, ...more },
});
const send = (phone: Caller, facts: readonly unknown[]) =>
  phone.ask<FactsTaken>('POST', '/api/phone/facts', { saidAt: `${day}T07:00:00Z`, facts });

onBothStores('phones', (store) => {
  const begin = async (): Promise<Set> => {
    const programme = await store.make();
    const ids = await smallGarden(programme);
    const server = await serve(programme, programme.location);
    return { programme, server, ids, office: await owner(programme, server) };
  };

  it('are let in once by a key within ten minutes, listed, shut out, and leave their notes', async () => {
    const at = await begin();
    const before = Date.now();
    const { body } = await at.office.ask<{ key: string; until: string }>('POST', '/api/phones/let-in', {
      person: at.ids.recorder,
    });
    expect(Date.parse(body.until) - before).toBeGreaterThan(9 * 60_000);
    expect(Date.parse(body.until) - before).toBeLessThan(11 * 60_000);
    const phone = await Caller.signIn(at.server, body.key, 'Android, Chrome');
    await expect(Caller.signIn(at.server, body.key, 'another')).rejects.toThrow(/once, within minutes/);
    expect((await send(phone, [note(at.ids, 80)])).body.results).toMatchObject([{ problem: null }]);
    const listed = (await at.office.ask<Phones>('GET', '/api/phones')).body;
    expect(listed.phones).toMatchObject([
      { code: 'phone-MK', person: 'MK', role: 'recorder', shutOutOn: null },
    ]);
    const { id } = listed.phones[0]!;
    expect((await at.office.ask('POST', `/api/phones/${id}/shut-out`)).status).toBe(200);
    const refused = await send(phone, [note(at.ids, 90)]);
    expect(refused).toMatchObject({
      status: 401,
      body: {
        error: {
          problem: expect.stringContaining('no longer let in'),
          remedy: expect.stringContaining('kept'),
        },
      },
    });
    const after = (await at.office.ask<Phones>('GET', '/api/phones')).body.phones;
    expect(after).toMatchObject([{ code: 'phone-MK', lastSeenAt: expect.any(String) }]);
    expect(after[0]!.shutOutOn).not.toBeNull();
    expect((await at.office.ask('GET', '/api/records/notes')).body).toMatchObject({ total: 1 });
    const notes = await at.programme.read
      .selectFrom('notes')
      .innerJoin('acts', 'acts.seq', 'notes.made_act')
      .select(['acts.via', 'acts.device', 'acts.person', 'acts.said_at', 'notes.by'])
      .execute();
    expect(notes).toEqual([
      { via: 'phone', device: id, person: at.ids.recorder, said_at: `${day}T07:00:00Z`, by: at.ids.recorder },
    ]);
    // The next phone of the same person has a code of its own; the label trait was made with the first.
    await phoneOf(at, at.ids.recorder!);
    const codes = (await at.office.ask<Phones>('GET', '/api/phones')).body.phones.map(({ code }) => code);
    expect(codes).toEqual(['phone-MK-2', 'phone-MK']);
    expect(
      (await at.office.ask<{ code: string }[]>('GET', '/api/traits')).body.map(({ code }) => code),
    ).toContain('label');
  });

  it('may do what the role of who carries them allows, and are told why not', async () => {
    const at = await begin();
    const [recorder, guest] = [await phoneOf(at, at.ids.recorder!), await phoneOf(at, at.ids.guest!)];
    const nobody = await fetch(`${at.server.address}/api/phone/holdings`);
    expect([nobody.status, await nobody.json()]).toMatchObject([
      401,
      { error: { problem: 'nobody is signed in' } },
    ]);
    expect(await guest.ask('GET', '/api/phone/holdings')).toMatchObject({
      status: 403,
      body: { error: { problem: 'this needs the role recorder; you are guest' } },
    });
    expect((await send(guest, [])).status).toBe(403);
    expect((await guest.ask('GET', '/api/plants')).status).toBe(200);
    for (const [method, path] of [
      ['GET', '/api/phones'],
      ['POST', '/api/phones/let-in'],
      ['GET', '/api/unsettled'],
      ['POST', '/api/unsettled/settle'],
      ['POST', '/api/records/genets'],
    ] as const)
      expect([path, (await recorder.ask(method, path, method === 'POST' ? {} : undefined)).status]).toEqual([
        path,
        403,
      ]);
    const row = { plant: at.ids.one, on: day };
    const decision = { kind: 'decisions', id: newId(), row: { ...row, decision: 'keep', proposed: false } };
    const sent = [
      decision,
      { kind: 'identities', id: newId(), row: { ...row, genet: at.ids.mother, earlier_notes: 'stay' } },
      { kind: 'moves', id: newId(), row: { ...row, place: at.ids.other } },
      note(at.ids, 'wrong', { trait: 'label', by: at.ids.second }),
      { kind: 'genets', id: newId(), row: { code: 'evil' } },
      { kind: 'notes', id: newId(), row: { ...row, trait: at.ids.height, value: ['many'] } },
    ];
    const { status, body } = await send(recorder, sent);
    expect([status, body.results.map(({ problem }) => problem)]).toEqual([
      200,
      [
        null,
        expect.stringContaining('only the owner says that a plant is another'),
        expect.stringContaining('only the owner moves plants'),
        null,
        expect.stringContaining('kind'),
        expect.stringContaining('row › value'),
      ],
    ]);
    expect(await at.programme.read.selectFrom('decisions').select(['proposed', 'by']).execute()).toEqual([
      { proposed: 1, by: at.ids.recorder },
    ]);
    // Who saw it stays as the phone said; who handed it over stands in the act.
    expect(
      await at.programme.read
        .selectFrom('notes')
        .innerJoin('acts', 'acts.seq', 'notes.made_act')
        .select(['notes.by', 'acts.person'])
        .execute(),
    ).toEqual([{ by: at.ids.second, person: at.ids.recorder }]);
    const owners = await phoneOf(
      at,
      (
        await at.programme.read
          .selectFrom('people')
          .select('id')
          .where('code', '=', 'owner')
          .executeTakeFirstOrThrow()
      ).id,
    );
    expect((await send(owners, sent.slice(1, 3))).body.results.map(({ problem }) => problem)).toEqual([
      null,
      null,
    ]);
    expect(
      (
        await send(
          owners,
          Array.from({ length: 501 }, () => decision),
        )
      ).status,
    ).toBe(400);
    expect((await recorder.ask('POST', '/api/phone/facts', { saidAt: 'yesterday', facts: [] })).status).toBe(
      400,
    );
  });

  it('hold all at first, then what changed: notes, moves, identities, withdrawals, names', async () => {
    const at = await begin();
    const phone = await phoneOf(at, at.ids.recorder!);
    const fetchSince = async (since?: number) =>
      (await phone.ask<Holdings>('GET', `/api/phone/holdings${since === undefined ? '' : `?since=${since}`}`))
        .body;
    const first = await fetchSince();
    expect(first).toMatchObject({
      whole: true,
      settings: { timeZone: 'UTC', units: 'metric' },
      person: { id: at.ids.recorder, code: 'MK', role: 'recorder' },
      places: [{ code: 'bed-1' }, { code: 'bed-2' }],
      notes: [],
      gone: [],
    });
    expect(first.plants.find(({ id }) => id === at.ids.one)).toEqual({
      id: at.ids.one,
      code: 'A-1/1',
      genet: at.ids.genet,
      genetCode: 'A-1',
      genetName: null,
      parents: 'M-1 × ?',
      bed: at.ids.bed,
      walk: 1,
      eastM: null,
      northM: null,
      plantedOn: '2020-04-01',
      goneOn: null,
    });
    const quiet = await fetchSince(first.upTo);
    expect(quiet).toMatchObject({ whole: false, plants: [], notes: [], gone: [], upTo: first.upTo });

    const kept = note(at.ids, 80, { remark: 'after rain' });
    const slip = note(at.ids, 180);
    const old = note(at.ids, 70, { on: `${year - 5}-06-01` });
    await send(phone, [kept, slip, old]);
    const noted = await fetchSince(quiet.upTo);
    expect(noted).toMatchObject({ whole: false, plants: [], gone: [] });
    expect(noted.notes.map(({ id }) => id).sort()).toEqual([kept.id, slip.id].sort());
    expect(noted.notes.find(({ id }) => id === kept.id)).toEqual({
      id: kept.id,
      plant: at.ids.one,
      trait: at.ids.height,
      on: day,
      state: 'seen',
      value: 80,
      by: 'MK',
      remark: 'after rain',
      photo: null,
    });

    const corrected = { ...note(at.ids, 18), replaces: slip.id };
    await send(phone, [
      corrected,
      { kind: 'withdrawal', id: newId(), of: { kind: 'notes', id: kept.id }, reason: 'other plant' },
    ]);
    const mended = await fetchSince(noted.upTo);
    expect(mended.notes.map(({ id }) => id)).toEqual([corrected.id]);
    expect([...mended.gone].sort()).toEqual([kept.id, slip.id].sort());

    await act(at.programme, office, async (doing) => {
      await add(doing, 'moves', [{ plant: 'A-1/1', on: day, place: 'bed-2', walk: 7 }]);
      await add(doing, 'identities', [{ plant: 'A-1/2', genet: 'M-1', on: day, earlier_notes: 'stay' }]);
    });
    const moved = await fetchSince(mended.upTo);
    expect(moved).toMatchObject({ whole: false, notes: [] });
    expect(
      moved.plants
        .map(({ code, bed, walk, genetCode, genetName }) => [code, bed, walk, genetCode, genetName])
        .sort(),
    ).toEqual([
      ['A-1/1', at.ids.other, 7, 'A-1', null],
      ['A-1/2', at.ids.bed, 2, 'M-1', 'Slate'],
    ]);

    await act(at.programme, office, (doing) =>
      change(doing, 'genets', at.ids.mother!, { name: 'Slate Heron' }),
    );
    const renamed = await fetchSince(moved.upTo);
    expect(renamed.plants.map(({ code, genetName }) => [code, genetName])).toEqual([
      ['A-1/2', 'Slate Heron'],
    ]);

    const [identity] = await at.programme.read.selectFrom('identities').select('id').execute();
    await act(at.programme, office, async (doing) => {
      await withdraw(doing, 'identities', identity!.id, 'it was the right one');
      await change(doing, 'plants', at.ids.one!, { gone_on: `${year - 4}-10-01` });
    });
    const gone = await fetchSince(renamed.upTo);
    expect(gone.plants.map(({ code, genetCode }) => [code, genetCode])).toEqual([['A-1/2', 'A-1']]);
    expect(gone.gone).toEqual([at.ids.one]);

    // A code of a genet stands among the parents of others: all is told anew.
    await act(at.programme, office, (doing) => change(doing, 'genets', at.ids.mother!, { code: 'M-9' }));
    const anew = await fetchSince(gone.upTo);
    expect(anew).toMatchObject({ whole: true, gone: [] });
    expect(anew.plants.map(({ parents }) => parents)).toEqual(['M-9 × ?']);
    expect((await fetchSince(999_999)).whole).toBe(true);
  });

  it('bring contradictions before the owner, who keeps one or both; nothing is deleted', async () => {
    const at = await begin();
    const [mara, joss] = [await phoneOf(at, at.ids.recorder!), await phoneOf(at, at.ids.second!)];
    const flower = (state: string, on: string, value?: string) =>
      note(at.ids, value ?? null, { trait: at.ids.flower, on, state });
    const hers = note(at.ids, 80);
    // source: RFC 9562, appendix A.6: this id was made on 22 February 2022 at 14:22:22.00, GMT-05:00
    const his = { ...note(at.ids, 120), id: '017f22e2-79b0-7cc3-98c4-dc0c0c07398f' };
    const bothRight = [flower('not yet', `${year}-05-01`), flower('seen', `${year}-05-05`, `${year}-05-05`)];
    await send(mara, [
      hers,
      bothRight[0],
      note(at.ids, 60, { plant: at.ids.two }),
      note(at.ids, 61, { plant: at.ids.two }),
    ]);
    await send(joss, [his, bothRight[1], note(at.ids, 80, { on: `${year}-06-02` })]);
    const cases = async () => (await at.office.ask<Unsettled>('GET', '/api/unsettled')).body.cases;
    const [found, ...others] = await cases();
    expect(others).toEqual([]);
    expect(found).toMatchObject({
      plant: { code: 'A-1/1' },
      trait: { code: 'height', unit: 'cm' },
      notes: [
        { id: hers.id, value: 80, by: 'MK', device: 'phone-MK' },
        { id: his.id, value: 120, by: 'JT', device: 'phone-JT', at: '2022-02-22T19:22:22.000Z' },
      ],
    });
    const settle = (keep: string[], strike: string[], reason: string) =>
      at.office.ask('POST', '/api/unsettled/settle', { keep, strike, reason });
    expect((await settle([hers.id], [his.id], ' ')).status).toBe(422);
    expect((await settle([hers.id, his.id], [], 'two spikes were meant')).status).toBe(200);
    expect(await cases()).toEqual([]);
    // A third voice opens the case again, with those that contradict it.
    const third = flower('seen', `${year}-05-03`, `${year}-04-28`);
    await send(joss, [third]);
    expect((await cases()).map(({ notes }) => notes.map(({ id }) => id))).toEqual([
      [bothRight[0]!.id, third.id],
    ]);
    expect((await settle([bothRight[0]!.id], [third.id], 'a bud, no flower')).status).toBe(200);
    expect(await cases()).toEqual([]);
    const history = await at.office.ask('GET', `/api/history/notes/${third.id}`);
    expect(history.body).toMatchObject([
      { what: 'withdrawn', reason: 'a bud, no flower', by: 'owner' },
      { what: 'made', by: 'JT', device: 'phone-JT' },
    ]);
    expect((await settle([bothRight[0]!.id], [third.id], 'again')).status).toBe(409);
  });

  it('hand pictures over by their hash, and are believed only what came whole', async () => {
    const at = await begin();
    const phone = await phoneOf(at, at.ids.recorder!);
    const picture = Uint8Array.from([
      0xff,
      0xd8,
      0xff,
      0xe0,
      ...Array.from({ length: 3000 }, (_, i) => i % 251),
    ]);
    const hash = createHash('sha256').update(picture).digest('hex');
    const torn = await phone.ask('PUT', `/api/photos/${hash}`, picture.subarray(0, 2000));
    expect(torn).toMatchObject({
      status: 422,
      body: { error: { problem: expect.stringContaining('incomplete') } },
    });
    if (store.backend === 'postgres') return;
    expect(await phone.ask('PUT', `/api/photos/${hash}`, picture)).toEqual({ status: 200, body: { hash } });
    expect(await phone.ask('PUT', `/api/photos/${hash}`, picture)).toEqual({ status: 200, body: { hash } });
  });
});
