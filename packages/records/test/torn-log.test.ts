import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { usualSettings } from '@keelrow/breeding/facts';
import { type Random, seededRandom } from '@keelrow/quant';
import { sql } from 'kysely';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { act, add, openProgramme, type Programme } from '../src/index.ts';
import { endsOfTransactions } from './support/log-frames.ts';
import { expectWhole } from './support/whole.ts';

// source: SQLite, “Write-Ahead Logging” and “Database File Format”, section 4.2: on recovery the log counts up to its
// last frame that ends a transaction before the first frame whose checksum is wrong; all after that is as if never
// written.

/** A programme's file and log as a power cut would leave them, and what stood in each. */
interface Cut {
  readonly file: Buffer;
  readonly log: Buffer;
  /** Acts whose facts stand in the file itself. */
  readonly inFile: number;
  /** Where in the log each later act ends. */
  readonly ends: readonly number[];
}

let root: string;
const cuts: Record<'fresh' | 'used before', Cut> = {} as never;

/** One act of several records: a genet, its plant, and two notes on it that bear the act's number. */
async function doActs(programme: Programme, from: number, to: number): Promise<void> {
  for (let number = from; number <= to; number++) {
    await act(programme, { person: null, device: null, via: 'command' }, async (doing) => {
      await add(doing, 'genets', [{ code: `G-${number}` }]);
      await add(doing, 'plants', [{ code: `G-${number}/1`, genet: `G-${number}` }]);
      const note = { plant: `G-${number}/1`, trait: 'height', value: number };
      await add(doing, 'notes', [
        { ...note, on: '2021-05-20' },
        { ...note, on: '2021-05-27' },
      ]);
    });
  }
}

const checkpoint = (programme: Programme, how: 'truncate' | 'restart') =>
  sql`pragma wal_checkpoint(${sql.raw(how)})`.execute(programme.write);

function snapshot(folder: string, inFile: number): Cut {
  const [file, log] = ['', '-wal'].map((end) => readFileSync(join(folder, `keelrow.sqlite${end}`)));
  return { file: file!, log: log!, inFile, ends: endsOfTransactions(log!) };
}

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'keelrow-torn-'));
  const folder = join(root, 'source');
  const programme = await openProgramme(folder, usualSettings);
  await act(programme, { person: null, device: null, via: 'command' }, (doing) =>
    add(doing, 'traits', [{ code: 'height', name: 'Height', sort: 'measured', unit: 'cm' }]),
  );
  await doActs(programme, 1, 5);
  await checkpoint(programme, 'truncate');
  await doActs(programme, 6, 35);
  cuts.fresh = snapshot(folder, 5);
  // The next log overwrites the last from its start; frames of the last one remain behind it.
  await checkpoint(programme, 'restart');
  await doActs(programme, 36, 50);
  cuts['used before'] = snapshot(folder, 35);
  await programme.close();
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

let copies = 0;

/** Opens a copy with a damaged log as the next user would, and says how many acts are there; none may be half there. */
async function recovered({ file }: Cut, log: Buffer): Promise<number> {
  const folder = join(root, `copy-${++copies}`);
  mkdirSync(folder);
  writeFileSync(join(folder, 'keelrow.sqlite'), file);
  writeFileSync(join(folder, 'keelrow.sqlite-wal'), log);
  const programme = await openProgramme(folder);
  try {
    await expectWhole(programme);
    const { rows } = await sql<{ code: string; plants: number; notes: number; right: number }>`
      select g.code as code, count(distinct p.id) as plants, count(n.id) as notes,
        sum(g.code = 'G-' || cast(n.value_number as integer) and g.made_act = n.made_act) as "right"
      from genets g left join plants p on p.genet = g.id left join notes n on n.plant = p.id
      group by g.id order by g.made_act`.execute(programme.read);
    expect(rows).toEqual(rows.map((_, index) => ({ code: `G-${index + 1}`, plants: 1, notes: 2, right: 2 })));
    const { acts } = await programme.read
      .selectFrom('acts')
      .select(({ fn }) => fn.countAll<number>().as('acts'))
      .executeTakeFirstOrThrow();
    expect(acts).toBe(rows.length + 1);
    return rows.length;
  } finally {
    await programme.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Acts that stood wholly on the disk before this place in the log. */
const before = ({ inFile, ends }: Cut, place: number): number =>
  inFile + ends.filter((end) => end <= place).length;

const flipBit = (log: Buffer, random: Random): { damaged: Buffer; place: number } => {
  const damaged = Buffer.from(log);
  const place = random.integer(log.length);
  damaged[place] = damaged[place]! ^ (1 << random.integer(8));
  return { damaged, place };
};

const sector = 512;
const damages: Record<string, (log: Buffer, random: Random) => { damaged: Buffer; place: number }> = {
  'a zeroed tail': (log, random) => {
    const place = random.integer(log.length);
    return { damaged: Buffer.from(log).fill(0, place), place };
  },
  'a sector that was not written': (log, random) => {
    const place = random.integer(Math.floor(log.length / sector)) * sector;
    return { damaged: Buffer.from(log).fill(0, place, place + sector), place };
  },
  'a tail of other data': (log, random) => {
    const place = random.integer(log.length);
    const damaged = Buffer.from(log);
    for (let at = place; at < damaged.length; at++) damaged[at] = random.integer(256);
    return { damaged, place };
  },
};

describe.each(['fresh', 'used before'] as const)('a log that is %s', (which) => {
  it('holds one transaction for each act, and gives all of them back when whole', async () => {
    const cut = cuts[which];
    expect(cut.ends.length).toBe({ fresh: 30, 'used before': 15 }[which]);
    expect(which === 'used before' ? cut.log.length > cut.ends.at(-1)! : true).toBe(true);
    expect(await recovered(cut, cut.log)).toBe(cut.inFile + cut.ends.length);
  });

  it('cut off anywhere gives back every act that ended before the cut, and nothing of the next', async () => {
    const cut = cuts[which];
    const random = seededRandom(`cut ${which}`);
    const atEnds = cut.ends.flatMap((end) => [end - 1, end, end + 1]);
    const anywhere = Array.from({ length: 90 }, () => random.integer(cut.log.length));
    for (const length of [0, 1, 31, 32, 33, ...atEnds, ...anywhere]) {
      expect([length, await recovered(cut, cut.log.subarray(0, length))]).toEqual([
        length,
        before(cut, length),
      ]);
    }
  });

  it('with one bit turned gives back every act that ended before it, and nothing after', async () => {
    const cut = cuts[which];
    const random = seededRandom(`bit ${which}`);
    for (let run = 0; run < 120; run++) {
      const { damaged, place } = flipBit(cut.log, random);
      // A wrong bit in the log's own header makes all of the log void; behind its last act it harms nothing.
      const expected = place < 32 ? cut.inFile : before(cut, place);
      expect([place, await recovered(cut, damaged)]).toEqual([place, expected]);
    }
  });

  it.each(Object.keys(damages))(
    'with %s gives back at least every act that ended before it, in their order',
    async (name) => {
      const cut = cuts[which];
      const random = seededRandom(`${name} ${which}`);
      for (let run = 0; run < 50; run++) {
        const { damaged, place } = damages[name]!(cut.log, random);
        const count = await recovered(cut, damaged);
        expect(count, `damage at ${place}`).toBeGreaterThanOrEqual(before(cut, place));
        expect(count).toBeLessThanOrEqual(cut.inFile + cut.ends.length);
      }
    },
  );
});

it('a file whose log was lost altogether opens with what was in the file', async () => {
  const folder = join(root, 'alone');
  mkdirSync(folder);
  writeFileSync(join(folder, 'keelrow.sqlite'), cuts.fresh.file);
  const programme = await openProgramme(folder);
  await expectWhole(programme);
  expect((await programme.read.selectFrom('genets').select('code').execute()).length).toBe(cuts.fresh.inFile);
  await programme.close();
});
