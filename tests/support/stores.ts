import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type ProgrammeSettings, usualSettings } from '@keelrow/breeding/facts';
import { openProgramme, type Programme } from '@keelrow/records';
import pg from 'pg';
import { afterEach, describe, inject } from 'vitest';

export type Backend = 'sqlite' | 'postgres';

export interface Store {
  readonly backend: Backend;
  /** A new folder or database without a programme; it is taken away after the test. */
  place(): Promise<string>;
  /** Makes a new programme; it is closed and taken away after the test. */
  make(settings?: Partial<ProgrammeSettings>): Promise<Programme>;
}

/** Runs one suite on both databases; on PostgreSQL it is skipped where that is not installed. */
export function onBothStores(name: string, suite: (store: Store) => void): void {
  const postgres = inject('postgres');
  for (const backend of ['sqlite', 'postgres'] as const) {
    describe.skipIf(backend === 'postgres' && !postgres)(`${name} (${backend})`, () => {
      const undo: (() => Promise<void>)[] = [];
      afterEach(async () => {
        for (const step of undo.splice(0).reverse()) await step();
      });
      const place = async (): Promise<string> => {
        const { where, remove } = await newPlace(backend);
        undo.push(remove);
        return where;
      };
      suite({
        backend,
        place,
        async make(settings = {}) {
          const programme = await openProgramme(await place(), { ...usualSettings, ...settings });
          undo.push(() => programme.close());
          return programme;
        },
      });
    });
  }
}

/** A new folder or database without a programme, and how to take it away. */
export async function newPlace(backend: Backend): Promise<{ where: string; remove: () => Promise<void> }> {
  return backend === 'sqlite' ? newFolder() : newDatabase(inject('postgres')!);
}

function newFolder(): { where: string; remove: () => Promise<void> } {
  const where = mkdtempSync(join(tmpdir(), 'keelrow-store-'));
  return { where, remove: async () => rmSync(where, { recursive: true, force: true }) };
}

let made = 0;

async function newDatabase(cluster: string): Promise<{ where: string; remove: () => Promise<void> }> {
  const name = `garden_${process.pid}_${++made}`;
  const ask = async (sql: string) => {
    const client = new pg.Client({ connectionString: cluster });
    await client.connect();
    await client.query(sql);
    await client.end();
  };
  await ask(`create database ${name}`);
  const url = new URL(cluster);
  url.pathname = `/${name}`;
  return { where: url.href, remove: () => ask(`drop database ${name} with (force)`) };
}
