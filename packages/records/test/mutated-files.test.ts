import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { kindNames, usualSettings } from '@keelrow/breeding/facts';
import fc from 'fast-check';
import { sql } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  type ImportOutcome,
  openImport,
  openProgramme,
  type PlanWishes,
  type Programme,
  RecordsError,
  TableError,
  takeIn,
} from '../src/index.ts';
import { tableOf } from '../src/schema/columns.ts';
import { writeXlsx } from '../src/tables/index.ts';
import { asCsv, byteMutation, type Cells, cellMutation } from './support/mutations.ts';
import { plantSmallGarden, smallFiles } from './support/small-files.ts';
import { expectWhole } from './support/whole.ts';

const by = { person: null, device: null, via: 'import' as const };
/** After so many files that were taken in the programme is begun anew, so that most files meet a small one. */
const storedAtMost = 12;

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'keelrow-mutated-'));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const tables = [...kindNames.map(tableOf), 'genets_parents', 'crosses_parents', 'acts', 'changes', 'endings'];
const counting = sql.join(
  tables.map((table) => sql`(select count(*) from ${sql.table(table)}) as ${sql.ref(table)}`),
);

/** Numbers of rows of all tables, withdrawn ones included, and a number that rises with every commit. */
async function stateOf(programme: Programme): Promise<Record<string, number>> {
  const { rows } = await sql<Record<string, number>>`select ${counting}`.execute(programme.read);
  // source: SQLite, “PRAGMA data_version”: it changes where another connection has committed since
  const version = await sql<{ data_version: number }>`pragma data_version`.execute(programme.read);
  return { ...rows[0]!, commits: version.rows[0]!.data_version };
}

type Ending = 'stored' | 'nothing new' | 'refused by rows' | 'asked' | 'refused in words';

/** One programme into which one damaged file after another is taken. */
class Lane {
  readonly #name: string;
  readonly endings: Record<Ending, number> = {
    stored: 0,
    'nothing new': 0,
    'refused by rows': 0,
    asked: 0,
    'refused in words': 0,
  };
  #programme: Programme | null = null;
  #begun = 0;
  /** As the last file left it. */
  #state: Record<string, number> = {};

  constructor(name: string) {
    this.#name = name;
  }

  async beginAnew(): Promise<void> {
    await this.close();
    this.#programme = await openProgramme(join(root, `${this.#name}-${++this.#begun}`), usualSettings);
    await plantSmallGarden(this.#programme);
    this.#state = await stateOf(this.#programme);
  }

  async close(): Promise<void> {
    if (!this.#programme) return;
    await expectWhole(this.#programme);
    await this.#programme.close();
  }

  async take(ending: string, bytes: Buffer, wishes: PlanWishes): Promise<void> {
    const came = await this.#try(`${this.#name}.${ending}`, bytes, wishes);
    this.endings[came]++;
    if (came === 'stored' && this.endings.stored % storedAtMost === 0) await this.beginAnew();
  }

  /** Takes a file in and looks at what it left behind: all of it or nothing. Anything but words is thrown on. */
  async #try(name: string, bytes: Buffer, wishes: PlanWishes): Promise<Ending> {
    const programme = this.#programme!;
    const path = join(root, name);
    writeFileSync(path, bytes);
    const before = this.#state;
    let outcome: ImportOutcome;
    try {
      outcome = await takeIn(programme, [await openImport(programme, path, wishes)], { by, store: true });
    } catch (error) {
      if (!(error instanceof RecordsError) && !(error instanceof TableError)) throw error;
      expect(error.message.length).toBeGreaterThan(10);
      expect(await stateOf(programme)).toEqual(before);
      return 'refused in words';
    }
    const after = await stateOf(programme);
    if (outcome.questions.length > 0 || outcome.problemCount > 0) {
      expect(after).toEqual(before);
      for (const { problem } of outcome.problems) expect(problem).not.toMatch(/undefined|\[object|NaN/);
      return outcome.questions.length > 0 ? 'asked' : 'refused by rows';
    }
    this.#state = after;
    expect(after.acts).toBe(before.acts! + 1);
    for (const kind of kindNames) {
      expect([kind, after[tableOf(kind)]! - before[tableOf(kind)]!]).toEqual([
        kind,
        outcome.stored[kind] ?? 0,
      ]);
    }
    return Object.keys(outcome.stored).length > 0 ? 'stored' : 'nothing new';
  }
}

async function asXlsx(cells: Cells): Promise<Buffer> {
  const parts: Buffer[] = [];
  const sink = new Writable({
    write(part: Buffer, _, done) {
      parts.push(part);
      done();
    },
  });
  const width = Math.max(1, ...cells.map((line) => line.length));
  const columns = Array.from({ length: width }, (_, index) => ({ header: cells[0]?.[index] ?? '' }));
  const asNumber = (text: string) =>
    /^-?\d{1,9}(\.\d+)?$/.test(text) ? Number(text) : text.slice(0, 32_000);
  const rows = cells.slice(1).map((line) => columns.map((_, index) => asNumber(line[index] ?? '')));
  await writeXlsx([{ name: 'Sheet', columns, rows }], sink);
  return Buffer.concat(parts);
}

const nothingWished: fc.Arbitrary<PlanWishes> = fc.constant({});
const anythingWished: fc.Arbitrary<PlanWishes> = fc.record(
  {
    make: fc.constantFrom(['plants'] as const, ['plants', 'genets', 'traits', 'places', 'people'] as const),
    ifThere: fc.constantFrom('change', 'refuse'),
    dateOrder: fc.constantFrom('ymd', 'dmy', 'mdy'),
    decimal: fc.constantFrom('.', ','),
    yearDay: fc.constant('07-01'),
    constants: fc.constantFrom<Record<string, string>[]>(
      { on: '2021-06-01' },
      { remark: 'old book' },
      { nonsense: '1' },
    ),
    again: fc.boolean(),
  },
  { requiredKeys: [] },
);
const wishes = fc.oneof(
  nothingWished,
  fc.constant<PlanWishes>({ make: ['plants', 'traits', 'places'], again: true }),
  anythingWished,
);

const file = fc.record({
  of: fc.constantFrom(...smallFiles),
  inCells: fc.array(cellMutation, { maxLength: 4 }),
  inBytes: fc.oneof(
    { weight: 2, arbitrary: fc.constant<((bytes: Buffer) => Buffer)[]>([]) },
    { weight: 1, arbitrary: fc.array(byteMutation, { minLength: 1, maxLength: 3 }) },
  ),
  how: fc.oneof(
    { weight: 3, arbitrary: fc.constantFrom(',', ';', '\t') },
    { weight: 1, arbitrary: fc.constant('xlsx') },
  ),
  tellKind: fc.boolean(),
  wished: wishes,
});

/** Takes so many damaged files into one programme, one after the other. */
async function runLane(name: string, files: number, seed: number): Promise<Lane> {
  const lane = new Lane(name);
  await lane.beginAnew();
  await fc.assert(
    fc.asyncProperty(file, async ({ of: { kind, rows }, inCells, inBytes, how, tellKind, wished }) => {
      const cells = inCells.reduce<Cells>((made, mutate) => mutate(made), rows);
      const sound = how === 'xlsx' ? await asXlsx(cells) : asCsv(cells, how);
      const bytes = inBytes.reduce((made, mutate) => mutate(made), sound);
      await lane.take(how === 'xlsx' ? 'xlsx' : 'csv', bytes, tellKind ? { ...wished, kind } : wished);
    }),
    { seed, numRuns: files, endOnFailure: true },
  );
  await lane.close();
  return lane;
}

it('10,000 damaged files are taken in whole, or refused in words with everything as it was', async () => {
  const lanes = await Promise.all([runLane('first', 5000, 20270603), runLane('second', 5000, 20270604)]);
  const count = (ending: Ending) => lanes.reduce((sum, lane) => sum + lane.endings[ending], 0);
  const counts = (Object.keys(lanes[0]!.endings) as Ending[]).map((ending) => `${count(ending)} ${ending}`);
  console.log(`10,000 damaged files: ${counts.join(', ')}`);
  // All of it happens: the mutations are neither all harmless nor all fatal.
  expect(count('stored')).toBeGreaterThan(300);
  expect(count('asked')).toBeGreaterThan(100);
  expect(count('refused by rows')).toBeGreaterThan(1000);
  expect(count('refused in words')).toBeGreaterThan(300);
}, 600_000);
