import { spawn } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { usualSettings } from '@keelrow/breeding/facts';
import BetterSqlite from 'better-sqlite3';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { newPlace } from '../../../tests/support/stores.ts';
import { act, add, countRecords, openProgramme, RecordsError } from '../src/index.ts';
import {
  keelrow,
  keelrowCommand,
  mayMount,
  type Ran,
  run,
  runInOwnMounts,
  support,
} from './support/command.ts';
import { plantSmallGarden } from './support/small-files.ts';

const by = { person: null, device: null, via: 'command' as const };
const isRoot = process.getuid?.() === 0;
/** Rights do not bind root: it must be able to run the command as someone else. */
const canBeNobody =
  !isRoot || run('runuser', ['-u', 'nobody', '--', process.execPath, '--version']).status === 0;
const canMount = mayMount();
const look = [process.execPath, support('look.mjs')].join(' ');

let root: string;
let garden: string;
let sheet: string;
let large: string;
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'keelrow-store-'));
  // Other users may come in and look, and no more.
  chmodSync(root, 0o755);
  garden = join(root, 'garden');
  const programme = await openProgramme(garden, usualSettings);
  await plantSmallGarden(programme);
  await programme.close();
  sheet = join(root, 'notes.csv');
  writeFileSync(sheet, 'plant,trait,on,value\nA/1,height,2021-05-20,41\n');
  large = join(root, 'large.csv');
  const rows = Array.from(
    { length: 20_000 },
    (_, index) => `A/1,height,2021-05-20,${(5 + index / 100).toFixed(2)}`,
  );
  writeFileSync(large, ['plant,trait,on,value', ...rows].join('\n'));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const copyOf = (name: string): string => {
  const folder = join(root, name);
  cpSync(garden, folder, { recursive: true });
  return folder;
};
const lookAt = (folder: string): string =>
  run(process.execPath, [support('look.mjs'), join(folder, 'keelrow.sqlite')]).out;

/** What a person is told: plain words and what to do, no trace of the program’s insides. */
function expectWords({ status, out, said }: Ran, words: RegExp): void {
  expect([status, out]).toEqual([1, '']);
  expect(said).toMatch(words);
  expect(said).toMatch(/^→ \S/m);
  expect(said).not.toMatch(/SQLITE|not foreseen| at .*\.js:\d+/);
}

/** Starts a process that holds the lock for writing. */
async function holdLock(folder: string, milliseconds = 60_000) {
  const child = spawn(
    process.execPath,
    [support('hold-lock.mjs'), join(folder, 'keelrow.sqlite'), String(milliseconds)],
    {
      stdio: ['ignore', 'pipe', 'inherit'],
    },
  );
  await new Promise((held) => child.stdout.once('data', held));
  return child;
}

describe('a store that another process is writing', () => {
  it('is waited for while reading goes on, and refused in words when patience ends', async () => {
    const folder = copyOf('locked');
    const before = lookAt(folder);
    const holder = await holdLock(folder);
    const programme = await openProgramme(folder, undefined, { patience: 400 });
    let isOver = false;
    let readings = 0;
    const refused = act(programme, by, (doing) => add(doing, 'genets', [{ code: 'C' }]))
      .catch((error: unknown) => error)
      .finally(() => {
        isOver = true;
      });
    while (!isOver) {
      expect((await countRecords(programme.read, ['genets'])).genets).toBe(2);
      readings += 1;
      await new Promise((next) => setImmediate(next));
    }
    expect(await refused).toMatchObject({
      name: 'RecordsError',
      because: 'store',
      message: expect.stringMatching(/locked by another process/),
      remedy: expect.stringMatching(/try again/),
    });
    expect(readings).toBeGreaterThan(5);
    expect(lookAt(folder)).toBe(before);
    holder.kill();
    await new Promise((ended) => holder.once('close', ended));
    await act(programme, by, (doing) => add(doing, 'genets', [{ code: 'C' }]));
    await programme.close();
  });

  it('is written when the other is done within patience', async () => {
    const folder = copyOf('waited-for');
    await holdLock(folder, 300);
    const programme = await openProgramme(folder);
    await act(programme, by, (doing) => add(doing, 'genets', [{ code: 'C' }]));
    expect((await countRecords(programme.read, ['genets'])).genets).toBe(3);
    await programme.close();
  });

  it.skipIf(!inject('postgres'))('is refused in words on PostgreSQL too', async () => {
    const { where, remove } = await newPlace('postgres');
    const one = await openProgramme(where, usualSettings);
    const other = await openProgramme(where, undefined, { patience: 200 });
    await act(one, by, async () => {
      await expect(act(other, by, (doing) => add(doing, 'genets', [{ code: 'C' }]))).rejects.toMatchObject({
        because: 'store',
        message: expect.stringMatching(/locked by another process/),
      });
    });
    await act(other, by, (doing) => add(doing, 'genets', [{ code: 'C' }]));
    await one.close();
    await other.close();
    await remove();
  });
});

describe('a store that may not be written', () => {
  const asNobody = (args: readonly string[]): Ran =>
    isRoot
      ? run('runuser', ['-u', 'nobody', '--', process.execPath, keelrowCommand(), ...args], { HOME: '/' })
      : run(process.execPath, [keelrowCommand(), ...args]);

  it.skipIf(!canBeNobody).each([
    ['whose folder is another user’s', 0o755, 0o644],
    ['whose file is write-protected', 0o777, 0o444],
    ['that may not be read either', 0o755, 0o600],
    ['in a folder that may not be entered', 0o700, 0o644],
  ])('%s is refused in words', (_, ofFolder, ofFile) => {
    const folder = copyOf(`rights-${ofFolder}-${ofFile}`);
    const before = lookAt(folder);
    chmodSync(join(folder, 'keelrow.sqlite'), isRoot ? ofFile : ofFile & 0o444);
    chmodSync(folder, isRoot ? ofFolder : ofFolder & 0o555);
    const ran = asNobody(['import', 'notes', sheet, '--data', folder]);
    chmodSync(folder, 0o755);
    chmodSync(join(folder, 'keelrow.sqlite'), 0o644);
    expectWords(ran, /write|opened|no programme/);
    expect(lookAt(folder)).toBe(before);
  });

  it.skipIf(!canBeNobody)('and where none can be begun is refused in words', async () => {
    const parent = join(root, 'closed');
    mkdirSync(parent);
    chmodSync(parent, isRoot ? 0o755 : 0o555);
    const ran = asNobody(['demo', '--data', join(parent, 'demo')]);
    expectWords(ran, /you may not write in the programme’s folder/);
  });

  it.skipIf(!canMount)('on a disk that can only be read is refused in words', () => {
    const folder = copyOf('read-only-disk');
    const before = lookAt(folder);
    const ran = runInOwnMounts(
      `mount --bind '${folder}' '${folder}' && mount -o remount,ro,bind '${folder}' && exec '${process.execPath}' '${keelrowCommand()}' import notes '${sheet}' --data '${folder}'`,
    );
    expectWords(ran, /only be read|write-protected|cannot be opened/);
    expect(lookAt(folder)).toBe(before);
  });
});

describe('a full disk', () => {
  it.skipIf(!canMount)('refuses in words, keeps what was there and takes in what still fits', () => {
    const folder = join(root, 'small-disk');
    mkdirSync(folder);
    const command = `'${process.execPath}' '${keelrowCommand()}'`;
    const ran = runInOwnMounts(
      [
        `mount -t tmpfs -o size=3m tmpfs '${folder}' && cp '${garden}'/keelrow.sqlite '${folder}' || exit 99`,
        `${look} '${folder}/keelrow.sqlite'`,
        `${command} import notes '${large}' --data '${folder}'; echo "status $?"`,
        `${look} '${folder}/keelrow.sqlite'`,
        `${command} import notes '${sheet}' --data '${folder}'; echo "status $?"`,
        `${look} '${folder}/keelrow.sqlite'`,
      ].join('\n'),
    );
    expect(ran.status, ran.said).not.toBe(99);
    const [before, full, after, fits, last] = ran.out
      .split('\n')
      .filter((line) => /^(\{|status )/.test(line));
    expect(full, ran.said).toBe('status 1');
    expect(ran.said).toMatch(/the disk is full; nothing of this was stored\n→ make room/);
    expect(after).toBe(before);
    expect(fits, ran.out).toBe('status 0');
    expect(JSON.parse(last ?? '{}')).toMatchObject({ notes: 1, integrity: 'ok', loose: 0 });
  });
});

describe('a file that is no programme', () => {
  it('is refused in words when it is something else altogether', async () => {
    const folder = join(root, 'letter');
    mkdirSync(folder);
    writeFileSync(join(folder, 'keelrow.sqlite'), 'Dear Mara, the seed has come.\n'.repeat(100));
    await expect(openProgramme(folder)).rejects.toMatchObject({
      because: 'store',
      message: expect.stringContaining('is not a Keelrow programme'),
      remedy: expect.stringContaining('choose another folder'),
    });
    expectWords(
      keelrow('export', 'all', '--to', join(root, 'out'), '--data', folder),
      /is not a Keelrow programme/,
    );
  });

  it('is left as it was when it is another program’s database', async () => {
    const folder = join(root, 'other');
    mkdirSync(folder);
    const database = new BetterSqlite(join(folder, 'keelrow.sqlite'));
    database.exec('create table recipes (id integer primary key, title text)');
    database.close();
    await expect(openProgramme(folder)).rejects.toMatchObject({ because: 'absent' });
    await expect(openProgramme(folder, usualSettings)).rejects.toThrow(
      /belongs to another program.*“recipes”/,
    );
    const again = new BetterSqlite(join(folder, 'keelrow.sqlite'), { readonly: true });
    expect(again.prepare('select name from sqlite_schema').pluck().all()).toEqual(['recipes']);
    again.close();
  });

  it.skipIf(!inject('postgres'))(
    'is left as it was when it is another program’s PostgreSQL database',
    async () => {
      const { where, remove } = await newPlace('postgres');
      const programme = await openProgramme(where, usualSettings);
      const tables = sql<{
        name: string;
      }>`select tablename as name from pg_tables where schemaname = 'public'`;
      const names = (await tables.execute(programme.read)).rows.map(({ name }) => name);
      await sql`drop schema public cascade; create schema public; create table recipes (id integer)`.execute(
        programme.write,
      );
      await programme.close();
      expect(names).toContain('notes');
      await expect(openProgramme(where)).rejects.toMatchObject({ because: 'absent' });
      await expect(openProgramme(where, usualSettings)).rejects.toThrow(
        /belongs to another program.*“recipes”/,
      );
      await remove();
    },
  );

  it('is refused in words when half of it is gone', async () => {
    const folder = copyOf('half');
    truncateSync(join(folder, 'keelrow.sqlite'), 100_000);
    const opened = openProgramme(folder).then(async (programme) => {
      const result = await countRecords(programme.read, ['notes', 'genets', 'weather']).catch(
        (error: unknown) => error,
      );
      await programme.close();
      throw result;
    });
    await expect(opened).rejects.toThrow(/damaged|malformed/);
  });

  it('of a newer version is refused by name through the command', async () => {
    const folder = copyOf('newer');
    const database = new BetterSqlite(join(folder, 'keelrow.sqlite'));
    database.exec(
      `insert into kysely_migration (name, timestamp) values ('0999-greenhouse-climate', '2031-01-01')`,
    );
    database.close();
    const before = lookAt(folder);
    expectWords(
      keelrow('import', 'notes', sheet, '--data', folder),
      /newer version of Keelrow.*0999-greenhouse-climate/,
    );
    expect(lookAt(folder)).toBe(before);
  });

  it('and a server that does not answer are told apart', async () => {
    await expect(openProgramme('postgres://keelrow@127.0.0.1:1/garden')).rejects.toMatchObject({
      because: 'store',
      message: expect.stringContaining('does not answer'),
    });
    const refused = await openProgramme(join(root, 'nowhere')).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(RecordsError);
    expect(refused).toMatchObject({
      because: 'absent',
      message: expect.stringContaining('there is no programme in'),
    });
  });

  it.skipIf(!inject('postgres'))('and a database that is not there is told as such', async () => {
    const url = new URL(inject('postgres')!);
    url.pathname = '/no_such_garden';
    await expect(openProgramme(url.href)).rejects.toThrow(/database does not exist/);
  });
});
