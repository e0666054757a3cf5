import { describe, expect, test } from 'vitest';
import { outOfReach } from '../../src/api/api-error.ts';
import type { NewFact } from '../../src/phone/facts.ts';
import { newPhone, StubServer, shutOut } from './stub-server.ts';

const height = (value: number, more: Partial<NewFact> = {}): NewFact => ({
  kind: 'notes',
  row: { plant: 'p1', trait: 'height', on: '2031-05-20', value },
  words: `2031-004-3/1 Height ${value} cm`,
  ...more,
});
const cut = (): never => {
  throw outOfReach();
};

describe('what was entered', () => {
  test('is on the disk before entering ends, and outlives the app', async () => {
    const server = new StubServer();
    server.before = cut;
    const { phone, disk } = newPhone(server);
    await phone.enter([height(92), height(93)]);
    const again = newPhone(server, disk).phone;
    expect((await again.notYetTaken()).map(({ words }) => words)).toEqual([
      '2031-004-3/1 Height 92 cm',
      '2031-004-3/1 Height 93 cm',
    ]);
  });

  test('without a network never counts as sent: undo forgets it, and nothing waits', async () => {
    const server = new StubServer();
    let offLine = true;
    const { phone } = newPhone(server, undefined, () => offLine);
    const [id] = await phone.enter([height(92)]);
    await phone.handOver();
    expect(phone.state()).toMatchObject({ busy: false, trouble: outOfReach().message });
    expect(await phone.withdrawOrForget(id!, 'slip')).toEqual({ forgotten: true });
    expect(await phone.notYetTaken()).toEqual([]);
    await phone.enter([height(93)]);
    offLine = false;
    await phone.handOver();
    expect([...server.kept.values()].map((fact) => 'row' in fact && fact.row.value)).toEqual([93]);
  });

  test('keeps the name of whoever held the phone, though another hands it over', async () => {
    const server = new StubServer();
    let offLine = true;
    const { phone } = newPhone(server, undefined, () => offLine);
    const heldBy = (code: string) =>
      phone.db.held.put({
        key: 'holdings',
        person: { id: `id of ${code}`, code, name: code, role: 'recorder' },
      } as never);
    await heldBy('RT');
    await phone.enter([height(92)]);
    await heldBy('BO');
    await phone.enter([height(95, { row: { plant: 'p2', trait: 'height', on: '2031-05-20', value: 95 } })]);
    offLine = false;
    await phone.handOver();
    expect([...server.kept.values()].map((fact) => 'row' in fact && fact.row.by)).toEqual(['RT', 'BO']);
  });

  test('is handed over in order, at most 500 at a time, and then waits no more', async () => {
    const server = new StubServer();
    const { phone } = newPhone(server);
    const ids = await phone.enter(Array.from({ length: 1201 }, (_, i) => height(i)));
    await phone.handOver();
    expect(server.requests.map(({ facts }) => facts.length)).toEqual([500, 500, 201]);
    expect([...server.kept.keys()]).toEqual(ids);
    expect(await phone.notYetTaken()).toEqual([]);
    expect(phone.state()).toMatchObject({ busy: false, trouble: null, persisted: true });
  });

  test('entered during handing over goes along without being asked again', async () => {
    const server = new StubServer();
    const { phone } = newPhone(server);
    let entered = false;
    server.after = async () => {
      if (entered) return;
      entered = true;
      await phone.enter([height(2)]);
    };
    await phone.enter([height(1)]);
    await phone.handOver();
    expect(server.kept.size).toBe(2);
  });

  test('keeps its place behind what it corrects, whatever the ids and the clock say', async () => {
    const server = new StubServer();
    const { phone } = newPhone(server);
    server.before = cut;
    const [first] = await phone.enter([height(1, { id: 'ffffffff-0000-7000-8000-000000000000' })]);
    await phone.enter([height(2, { id: '00000000-0000-7000-8000-000000000000', replaces: first! })]);
    await phone.handOver();
    server.before = () => {};
    await phone.handOver();
    expect([...server.kept.values()].map(({ id }) => id[0])).toEqual(['f', '0']);
  });

  test('a connection to the disk that was dropped is opened again', async () => {
    const { phone } = newPhone(new StubServer());
    await phone.db.open();
    phone.db.backendDB().close();
    await phone.enter([height(92)]);
    await phone.handOver();
    expect(phone.state().trouble).toBeNull();
    expect(await phone.db.facts.count()).toBe(1);
  });

  test.each([
    ['InvalidStateError', 2],
    ['UnknownError', 2],
    ['ConstraintError', 1],
  ])('work that fails by %s is done at most %i times', async (name, times) => {
    const { phone } = newPhone(new StubServer());
    let tries = 0;
    const work = phone.db.reliably(async () => {
      tries += 1;
      if (tries === 1) throw new DOMException('Connection to Indexed Database server', name);
      return 'done';
    });
    if (times === 2) expect(await work).toBe('done');
    else await expect(work).rejects.toThrow();
    expect(tries).toBe(times);
  });

  test('a full disk is told in words and nothing of it is kept', async () => {
    const { phone } = newPhone(new StubServer());
    phone.db.facts.hook('creating', () => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    await expect(phone.enter([height(92)])).rejects.toThrow('no room left on this device');
    expect(await phone.notYetTaken()).toEqual([]);
  });
});

describe('cut off', () => {
  test('before the server heard of it: waits and is taken once', async () => {
    const server = new StubServer();
    server.before = cut;
    const { phone } = newPhone(server);
    await phone.enter([height(92)]);
    await phone.handOver();
    expect(phone.state().trouble).toContain('does not answer');
    server.before = () => {};
    await phone.handOver();
    expect(server.kept.size).toBe(1);
    expect(phone.state().trouble).toBeNull();
  });

  test('after the server took it: sent again under its id and stored once', async () => {
    const server = new StubServer();
    server.after = cut;
    const { phone, disk } = newPhone(server);
    await phone.enter([height(92)]);
    await phone.handOver();
    expect(server.kept.size).toBe(1);
    server.after = () => {};
    const again = newPhone(server, disk).phone;
    await again.handOver();
    expect(server.requests.map(({ facts }) => facts[0]!.id)).toEqual([
      ...server.kept.keys(),
      ...server.kept.keys(),
    ]);
    expect(await again.notYetTaken()).toEqual([]);
  });

  test('shut out: all stays and it says so', async () => {
    const server = new StubServer();
    server.before = () => {
      throw shutOut();
    };
    const { phone } = newPhone(server);
    await phone.enter([height(92)]);
    await phone.handOver();
    expect(phone.state()).toMatchObject({ shutOut: true, trouble: expect.stringContaining('stays here') });
    expect(await phone.notYetTaken()).toHaveLength(1);
  });
});

describe('refused', () => {
  const server = (): StubServer => {
    const made = new StubServer();
    made.refuse = (fact) => (fact.kind === 'notes' && fact.row.value === 700 ? 'more than 200 cm' : null);
    return made;
  };

  test('stays with its reason while the others go', async () => {
    const at = server();
    const { phone } = newPhone(at);
    await phone.enter([height(1), height(700), height(2)]);
    await phone.handOver();
    expect(at.kept.size).toBe(2);
    expect(await phone.notYetTaken()).toMatchObject([
      { state: 'refused', problem: 'more than 200 cm', row: { value: 700 } },
    ]);
  });

  test('mended: the correction takes its place and names what it named', async () => {
    const at = server();
    const { phone } = newPhone(at);
    const [first] = await phone.enter([height(60)]);
    const [wrong] = await phone.enter([height(700, { replaces: first! })]);
    await phone.handOver();
    const [mended] = await phone.enter([height(70, { replaces: wrong! })]);
    await phone.handOver();
    expect(at.kept.get(mended!)).toMatchObject({ replaces: first, row: { value: 70 } });
    expect(await phone.notYetTaken()).toEqual([]);
  });

  test('corrected before it was known to be refused: the correction is sent once more under the right name', async () => {
    const at = server();
    const { phone } = newPhone(at);
    at.before = cut;
    const [wrong] = await phone.enter([height(700)]);
    const [right] = await phone.enter([height(70, { replaces: wrong! })]);
    await phone.handOver();
    at.before = () => {};
    await phone.handOver();
    expect([...at.kept.keys()]).toEqual([right]);
    expect(at.kept.get(right!)).not.toHaveProperty('replaces');
    expect(await phone.notYetTaken()).toEqual([]);
  });

  test('thrown away by hand, or sent once more', async () => {
    const at = server();
    const { phone } = newPhone(at);
    const [one, other] = await phone.enter([height(700), height(700)]);
    await phone.handOver();
    await phone.throwAway(one!);
    at.refuse = () => null;
    await phone.sendAgain(other!);
    await phone.handOver();
    expect([...at.kept.keys()]).toEqual([other]);
    expect(await phone.notYetTaken()).toEqual([]);
  });

  test('a batch that cannot be read is halved until the fact shows that is to blame', async () => {
    const at = new StubServer();
    const { phone } = newPhone(at);
    at.before = () => {
      const facts = at.requests.at(-1)!.facts;
      if (facts.some((fact) => fact.kind === 'notes' && fact.row.value === 3))
        throw Object.assign(outOfReach(), { status: 400, message: 'value: no such thing' });
    };
    await phone.enter(Array.from({ length: 7 }, (_, i) => height(i)));
    await phone.handOver();
    expect(at.kept.size).toBe(6);
    expect(await phone.notYetTaken()).toMatchObject([{ row: { value: 3 }, problem: 'value: no such thing' }]);
  });
});

describe('undo', () => {
  test('what never left is forgotten, and its correction corrects what it corrected', async () => {
    const server = new StubServer();
    server.before = cut;
    const { phone } = newPhone(server);
    const [first] = await phone.enter([height(1)]);
    await phone.handOver();
    const second = 'second';
    const { kind, row, words } = height(2);
    await phone.db.facts.add({
      kind,
      row,
      words,
      id: second,
      madeAt: '',
      state: 'waiting',
      problem: null,
      sent: false,
      replaces: first!,
    });
    expect(await phone.withdrawOrForget(second, 'undone')).toEqual({ forgotten: true });
    expect(await phone.notYetTaken()).toMatchObject([{ id: first }]);
  });

  test('what may have arrived is answered by a withdrawal that follows it', async () => {
    const server = new StubServer();
    server.after = cut;
    const { phone } = newPhone(server);
    const [id] = await phone.enter([height(1)]);
    await phone.handOver();
    server.after = () => {};
    expect(await phone.withdrawOrForget(id!, 'undone')).toMatchObject({ forgotten: false });
    await phone.handOver();
    expect([...server.kept.values()]).toMatchObject([
      { id },
      { kind: 'withdrawal', of: { id }, reason: 'undone' },
    ]);
  });

  test('a correction that arrived is answered by the former value', async () => {
    const server = new StubServer();
    const { phone } = newPhone(server);
    const [first] = await phone.enter([height(1)]);
    const [second] = await phone.enter([height(2, { replaces: first! })]);
    await phone.handOver();
    await phone.withdrawOrForget(second!, 'undone');
    await phone.handOver();
    expect([...server.kept.values()].at(-1)).toMatchObject({ replaces: second, row: { value: 1 } });
  });

  test('twice, by the ids first given, while the first undo has not left: nothing of it stands', async () => {
    const server = new StubServer();
    const { phone } = newPhone(server);
    const [first] = await phone.enter([height(1)]);
    const [second] = await phone.enter([height(2, { replaces: first! })]);
    await phone.handOver();
    server.before = cut;
    await phone.withdrawOrForget(second!, 'undone');
    await phone.withdrawOrForget(first!, 'undone');
    server.before = () => {};
    await phone.handOver();
    const facts = [...server.kept.values()];
    const ended = new Set(facts.map((fact) => (fact.kind === 'withdrawal' ? fact.of.id : fact.replaces)));
    expect(facts.filter(({ id, kind }) => kind === 'notes' && !ended.has(id))).toEqual([]);
  });

  test('taken back while it was refused: both go', async () => {
    const server = new StubServer();
    server.before = cut;
    server.refuse = () => 'the plant is gone';
    const { phone } = newPhone(server);
    const [id] = await phone.enter([height(1)]);
    await phone.handOver();
    await phone.withdrawOrForget(id!, 'undone');
    server.before = () => {};
    await phone.handOver();
    expect(await phone.notYetTaken()).toEqual([]);
    expect(server.kept.size).toBe(0);
  });
});

describe('pictures', () => {
  const bytes = new TextEncoder().encode('abc').buffer as ArrayBuffer;
  const about = { mediaType: 'image/jpeg', words: '2031-004-3/1 Flower colour' };

  test('are named by their SHA-256 and forgotten when the server has confirmed it', async () => {
    const server = new StubServer();
    const { phone } = newPhone(server);
    const { hash } = await phone.keepPhoto(bytes, about);
    // FIPS 180-4, the example “abc”.
    expect(hash).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    await phone.handOver();
    await phone.photosAtRest();
    expect(new Uint8Array(server.photos.get(hash)!)).toEqual(new Uint8Array(bytes));
    expect(await phone.db.photos.count()).toBe(0);
  });

  test('stay where the answer names another hash, and never hold up notes', async () => {
    const server = new StubServer();
    server.takePhoto = async () => ({ hash: 'another' });
    const { phone } = newPhone(server);
    await phone.keepPhoto(bytes, about);
    await phone.enter([height(1)]);
    await phone.handOver();
    await phone.photosAtRest();
    expect(server.kept.size).toBe(1);
    expect(await phone.db.photos.count()).toBe(1);
  });
});
