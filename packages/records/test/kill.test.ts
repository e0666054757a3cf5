import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { usualSettings } from '@keelrow/breeding/facts';
import { type Random, seededRandom } from '@keelrow/quant';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openProgramme } from '../src/index.ts';
import { expectWhole } from './support/whole.ts';
import { bundleWriter, startWriter, type Writer } from './support/writers.ts';

const kills = Number(process.env.KEELROW_KILLS ?? 1000);
/** After so many kills a lane begins a new programme, so that looking through it stays quick. */
const killsOfProgramme = 60;

let bundle: string;
let root: string;
beforeAll(async () => {
  bundle = await bundleWriter();
  root = mkdtempSync(join(tmpdir(), 'keelrow-kill-'));
});
afterAll(() => {
  rmSync(bundle, { recursive: true, force: true });
  rmSync(root, { recursive: true, force: true });
});

/** Kills a writer at a moment drawn: mostly some notes and a part of a note after its start, at times on its start. */
async function killSomewhere(writer: Writer, random: Random): Promise<void> {
  if (random.uniform() < 0.1) await wait(random.uniform() * 250);
  else {
    await writer.acknowledges(random.integer(12));
    await wait(random.uniform() * 5);
  }
  writer.kill();
}

interface Lane {
  readonly kills: number;
  acknowledged: number;
  /** Notes that were stored and whose writer was killed before it could say so. */
  unsaid: number;
}

/** Kills writers, so many at once on one programme, and looks after each round whether all is there that they said. */
async function runLane(name: string, wanted: number, atOnce: number, random: Random): Promise<Lane> {
  const lane = { kills: 0, acknowledged: 0, unsaid: 0 };
  let folder = '';
  let acknowledged: string[] = [];
  let killed = 0;
  let unsaid = 0;
  while (lane.kills < wanted) {
    if (lane.kills % killsOfProgramme < atOnce) {
      folder = join(root, `${name}-${lane.kills}`);
      acknowledged = [];
      killed = 0;
      unsaid = 0;
    }
    const writers = Array.from({ length: atOnce }, () => startWriter(bundle, folder));
    await Promise.all(writers.map((writer) => killSomewhere(writer, random)));
    for (const writer of writers) {
      const { signal, said } = await writer.ended;
      expect(signal, `a writer ended by itself: ${said}`).toBe('SIGKILL');
      acknowledged.push(...writer.acknowledged);
      lane.acknowledged += writer.acknowledged.length;
    }
    lane.kills += atOnce;
    killed += atOnce;
    const now = await lookThrough(folder, acknowledged, killed);
    lane.unsaid += now - unsaid;
    unsaid = now;
  }
  return lane;
}

/** Opens the programme as the next user would. Returns how many notes were stored whose writer could not say so. */
async function lookThrough(folder: string, acknowledged: readonly string[], killed: number): Promise<number> {
  const programme = await openProgramme(folder, usualSettings);
  try {
    await expectWhole(programme);
    const stored = (await programme.read.selectFrom('notes').select('id').execute()).map(({ id }) => id);
    const there = new Set(stored);
    expect(there.size).toBe(stored.length);
    expect(acknowledged.filter((id) => !there.has(id))).toEqual([]);
    // A writer is killed at most once between storing a note and saying so.
    const unsaid = stored.length - acknowledged.length;
    expect(unsaid).toBeLessThanOrEqual(killed);
    // One act for each note and for each time that a writer began: none is half there, none came twice.
    const notes = await programme.read
      .selectFrom('acts')
      .leftJoin('notes', 'notes.made_act', 'acts.seq')
      .select(({ fn }) => ['acts.seq', fn.count<number>('notes.id').as('notes')])
      .groupBy('acts.seq')
      .execute();
    expect(Math.max(0, ...notes.map((row) => row.notes))).toBeLessThanOrEqual(1);
    return unsaid;
  } finally {
    await programme.close();
  }
}

it(`${kills} writers are killed at any moment, and nothing that was acknowledged is lost`, async () => {
  const random = seededRandom(20260610);
  const shared = Math.floor(kills / 4 / 4) * 4;
  const alone = kills - shared;
  const lanes = await Promise.all([
    runLane('first', Math.ceil(alone / 2), 1, random.fork('first')),
    runLane('second', Math.floor(alone / 2), 1, random.fork('second')),
    runLane('shared', shared, 4, random.fork('shared')),
  ]);
  const sum = (of: (lane: Lane) => number) => lanes.reduce((total, lane) => total + of(lane), 0);
  console.log(
    `${sum((lane) => lane.kills)} writers killed, ${sum((lane) => lane.acknowledged)} notes acknowledged, none lost; ${sum((lane) => lane.unsaid)} stored before their writer could say so`,
  );
  expect(sum((lane) => lane.kills)).toBe(kills);
  // The kills hit writers at work, not before they had begun.
  expect(sum((lane) => lane.acknowledged)).toBeGreaterThan(2 * kills);
}, 600_000);
