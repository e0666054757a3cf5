import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { fieldsOf, kindNames, kindOf, usualSettings } from '@keelrow/breeding/facts';
import type BetterSqlite from 'better-sqlite3';
import { sql } from 'kysely';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { built } from '../../../tests/support/built.ts';
import { onBothStores } from '../../../tests/support/stores.ts';
import { openProgramme } from '../src/index.ts';
import { columnsOf, hasParents, parentsTableOf, tableOf } from '../src/schema/columns.ts';
import { migrations } from '../src/schema/migrate.ts';
import { retiredNames } from '../src/schema/retired-names.ts';
import { describeSchema, liveTables } from './support/catalogues.ts';

const opened = vi.hoisted(() => [] as BetterSqlite.Database[]);
vi.mock('better-sqlite3', async (original) => {
  const { default: Real } = await original<{ default: typeof BetterSqlite }>();
  return {
    default: class extends Real {
      constructor(...given: ConstructorParameters<typeof Real>) {
        super(...given);
        opened.push(this as unknown as BetterSqlite.Database);
      }
    },
  };
});

const folders: string[] = [];
const newFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'keelrow-schema-'));
  folders.push(folder);
  return folder;
};
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

const storedAs = {
  sqlite: { text: 'text', integer: 'integer', real: 'real' },
  postgres: { text: 'text', integer: 'integer', real: 'double precision' },
} as const;

onBothStores('the schema', (store) => {
  it('has a table for every kind with a typed column for every field, and a reference for every reference', async () => {
    const tables = await liveTables(await store.make());
    const types = storedAs[store.backend];
    for (const kind of kindNames) {
      const live = tables.get(tableOf(kind));
      expect(live, `table of ${kind}`).toBeDefined();
      for (const { name, type, required, to } of columnsOf(kind)) {
        expect([kind, name, live!.get(name)]).toEqual([
          kind,
          name,
          { type: types[type], required, to: to ? tableOf(to) : null },
        ]);
      }
      // Beside its own fields a record has its id, the acts that made and ended it, and of a fact what it corrects.
      const common = kindOf(kind).nature === 'fact' ? ['replaces', 'digest'] : [];
      expect([...live!.keys()].sort()).toEqual(
        ['id', 'made_act', 'ended_act', ...common, ...columnsOf(kind).map(({ name }) => name)].sort(),
      );
      expect([live!.get('made_act')?.to, live!.get('ended_act')?.to], `acts of ${kind}`).toEqual([
        'acts',
        'acts',
      ]);
    }
  });

  it('keeps every field of the catalogue in a column or among the parents', async () => {
    const tables = await liveTables(await store.make());
    for (const kind of kindNames) {
      for (const [name, field] of fieldsOf(kind)) {
        const names = [...tables.get(tableOf(kind))!.keys()];
        if (field.type === 'parents') expect(names).not.toContain(name);
        else expect(names.some((column) => column === name || column.startsWith(`${name}_`))).toBe(true);
      }
      if (!hasParents(kind)) continue;
      const parents = tables.get(parentsTableOf(kind))!;
      expect(parents.get('owner')).toMatchObject({ required: true, to: tableOf(kind) });
      expect(parents.get('parent')).toMatchObject({ required: false, to: 'genets' });
      expect(parents.get('chance')).toMatchObject({ required: true, type: storedAs[store.backend].real });
    }
  });

  it('keeps no kind as a JSON blob', async () => {
    const types = [...(await liveTables(await store.make())).values()].flatMap((columns) =>
      [...columns.values()].map(({ type }) => type),
    );
    expect(types.filter((type) => /json|blob|bytea/.test(type))).toEqual([]);
  });

  it('is word for word the one that was shipped', async () => {
    const described = await describeSchema(await store.make());
    await expect(described).toMatchFileSnapshot(`fixtures/schema-${store.backend}.txt`);
  });

  it('refuses a store of a newer version by name', async () => {
    const programme = await store.make();
    await sql`insert into kysely_migration (name, timestamp) values ('0999-greenhouse-climate', '2031-01-01')`.execute(
      programme.write,
    );
    const where = programme.location;
    await expect(openProgramme(where)).rejects.toMatchObject({
      because: 'store',
      message: expect.stringMatching(/newer version.*0999-greenhouse-climate/),
      remedy: expect.stringContaining('nothing was changed'),
    });
  });
});

describe('shipped migrations', () => {
  const schema = fileURLToPath(new URL('../src/schema/', import.meta.url));

  it.each([
    ['0001-first-records.ts', 'd39a26bf0f75a4c1fdf86dc3d2e34349f2210d3d85879464da4bbde580d12c22'],
    ['0001-tables.ts', '408a3b2cda03d9d21cabf0910e13bb609607990a8cf2cbc55eee2afa65d2b3d9'],
    ['0002-phones.ts', '6a5e85cce08a8cf68e0ea09f5f412bef87a3461cd8ed16a26a25586284f52124'],
  ])('%s is as it was shipped', (file, sha256) => {
    expect(
      createHash('sha256')
        .update(readFileSync(join(schema, file)))
        .digest('hex'),
    ).toBe(sha256);
  });

  it('have each a file here and run in the order of their names', () => {
    const names = Object.keys(migrations);
    expect(names).toEqual([...names].sort());
    const files = readdirSync(schema).filter((file) => /^\d{4}-/.test(file));
    expect(new Set(files.map((file) => file.slice(0, 4)))).toEqual(
      new Set(names.map((name) => name.slice(0, 4))),
    );
  });

  it('use no retired name again', () => {
    const live = kindNames.flatMap((kind) => [kind, ...columnsOf(kind).map(({ name }) => `${kind}.${name}`)]);
    expect(live.filter((name) => retiredNames.includes(name))).toEqual([]);
  });
});

describe('connections to the file', () => {
  // source: SQLite, “PRAGMA Statements”: synchronous 2 is FULL, foreign_keys 1 is on
  const promised = [2, 'wal', 1];
  const settingsOf = (database: BetterSqlite.Database) =>
    ['synchronous', 'journal_mode', 'foreign_keys'].map((name) => database.pragma(name, { simple: true }));

  it('keep every promise: the writer’s and the reader’s, in a new programme and in one that was there', async () => {
    const folder = newFolder();
    for (const settings of [usualSettings, undefined]) {
      opened.length = 0;
      const programme = await openProgramme(folder, settings);
      expect(opened).toHaveLength(2);
      expect(opened.map(settingsOf)).toEqual([promised, promised]);
      expect(opened.map(({ readonly }) => readonly)).toEqual([false, true]);
      await programme.close();
      expect(opened.map(({ open }) => open)).toEqual([false, false]);
    }
  });

  it('keep them in a worker thread too', async () => {
    built('packages/records/dist/index.js');
    const folder = newFolder();
    await (await openProgramme(folder, usualSettings)).close();
    const worker = new Worker(new URL('./support/connections-in-thread.mjs', import.meta.url), {
      workerData: { where: folder },
      execArgv: [],
    });
    const said = await new Promise((resolve, reject) => {
      worker.once('message', resolve);
      worker.once('error', reject);
    });
    expect(said).toEqual({ settings: [promised, promised], stillOpen: 0 });
  });

  it('are opened in one place of the whole project, which sets them', () => {
    const root = fileURLToPath(new URL('../../', import.meta.url));
    const sources = readdirSync(root).flatMap((name) => {
      const src = join(root, name, 'src');
      return readdirSync(src, { recursive: true, encoding: 'utf8' }).map((file) => join(src, file));
    });
    const opening = sources.filter(
      (file) =>
        /\.tsx?$/.test(file) &&
        /from 'better-sqlite3'|require\('better-sqlite3'\)/.test(readFileSync(file, 'utf8')),
    );
    expect(opening.map((file) => file.slice(root.length))).toEqual(['records/src/database/sqlite.ts']);
    expect(readFileSync(opening[0]!, 'utf8').match(/new Database\(/g)).toHaveLength(1);
  });

  it('leave a store of a newer version byte for byte as it was', async () => {
    const folder = newFolder();
    const programme = await openProgramme(folder, usualSettings);
    await sql`insert into kysely_migration (name, timestamp) values ('0999-greenhouse-climate', '2031-01-01')`.execute(
      programme.write,
    );
    await programme.close();
    const bytes = () =>
      readdirSync(folder).map((name) => [name, readFileSync(join(folder, name)).toString('base64')]);
    const before = bytes();
    expect(before.map(([name]) => name)).toEqual(['keelrow.sqlite']);
    await expect(openProgramme(folder)).rejects.toThrow(/newer version/);
    await expect(openProgramme(folder, usualSettings)).rejects.toThrow(/newer version/);
    expect(bytes()).toEqual(before);
  });
});
