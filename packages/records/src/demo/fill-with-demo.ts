import { type AnyRow, type KindName, kindOf, labelOf } from '@keelrow/breeding/facts';
import { type SimulatedGarden, type SimulateOptions, simulateGarden } from '@keelrow/demo';
import { v7 as newId } from 'uuid';
import type { Programme } from '../database/programme.ts';
import { writeSettings } from '../database/settings.ts';
import { fieldError, RecordsError } from '../errors.ts';
import { countRecords } from '../reading/records.ts';
import { anyTable, chunksOf } from '../schema/any-table.ts';
import { tableOf } from '../schema/columns.ts';
import { type Act, type ActBy, act } from '../writing/act.ts';
import { allProblems, type Checking, checkingFor, insertReady, type Ready } from '../writing/add.ts';
import { prepareReferences } from '../writing/encode.ts';
import { refuseLoops } from '../writing/loops.ts';
import { traitRules } from '../writing/note-values.ts';

/** The seed of the garden that everybody sees; any other gives another garden. */
export const demoSeed = 20260610;

const rowsAtOnce = 1000;

export interface Filling {
  readonly onProgress?: (share: number | null, step: string) => void;
  readonly isStopped?: () => boolean;
}

/**
 * Fills an empty programme with the simulated garden, in one act for what was written and one for what was mended
 * afterwards. Throws RecordsError where the programme is not empty. Returns the numbers stored by kind.
 */
export async function fillWithDemo(
  programme: Programme,
  by: ActBy,
  filling: Filling = {},
  options: SimulateOptions = { seed: demoSeed },
): Promise<Record<string, number>> {
  const counts = await countRecords(programme.read, ['genets', 'plants', 'notes']);
  if (counts.genets + counts.plants + counts.notes > 0) {
    throw new RecordsError(
      'conflict',
      'this programme holds records already',
      'begin the demo in a folder of its own: keelrow demo',
    );
  }
  filling.onProgress?.(null, 'growing the garden');
  const garden = simulateGarden(options);
  const stored: Record<string, number> = {};
  await act(programme, { ...by, reason: 'the demo garden' }, (doing) =>
    storeGarden(doing, garden, stored, filling),
  );
  await act(programme, { ...by, reason: 'corrections in the demo garden' }, (doing) =>
    storeCorrections(doing, garden),
  );
  await writeSettings(programme.write, garden.settings);
  return stored;
}

async function storeGarden(
  doing: Act,
  garden: SimulatedGarden,
  stored: Record<string, number>,
  filling: Filling,
): Promise<void> {
  const checking = await checkingFor(doing);
  // Genets and crosses refer to each other: all codes are known before the first row is stored.
  for (const { kind, row } of garden.records) {
    const key = kindOf(kind).key;
    if (key)
      checking.references.learn(
        kind,
        (row as AnyRow)[key] as string,
        (row.id as string | undefined) ?? newId(),
      );
  }
  let waiting: AnyRow[] = [];
  let kind: KindName | null = null;
  const flush = async () => {
    if (kind) await storeRows(doing, kind, waiting, checking);
    if (kind === 'traits') Object.assign(checking, { traits: await traitRules(doing.tx) });
    waiting = [];
    if (filling.isStopped?.()) throw new RecordsError('conflict', 'stopped; nothing was stored');
  };
  for (const record of garden.records) {
    if (record.kind !== kind || waiting.length >= rowsAtOnce) await flush();
    if (record.kind !== kind) filling.onProgress?.(null, `storing ${kindOf(record.kind).many}`);
    kind = record.kind;
    stored[kind] = (stored[kind] ?? 0) + 1;
    waiting.push(record.row as AnyRow);
  }
  await flush();
  await refuseLoops(doing);
}

async function storeRows(
  doing: Act,
  kind: KindName,
  rows: readonly AnyRow[],
  checking: Checking,
  replaces?: readonly string[],
): Promise<void> {
  await prepareReferences(checking.references, kind, rows);
  const key = kindOf(kind).key;
  const ready = rows.map((row, index): Ready => {
    const { problems, encoded } = allProblems(kind, row, checking);
    if (problems.length > 0) throw fieldError(`${kindOf(kind).one} ${labelOf(kind, row)}`, problems);
    const id =
      (row.id as string | undefined) ??
      (key ? checking.references.idOf(kind, row[key] as string) : null) ??
      newId();
    return { id, encoded, ...(replaces ? { replaces: replaces[index]! } : {}) };
  });
  await insertReady(doing, kind, ready);
}

async function storeCorrections(doing: Act, garden: SimulatedGarden): Promise<void> {
  const checking = await checkingFor(doing);
  const endings: {
    kind: KindName;
    record: string;
    what: string;
    by_record: string | null;
    reason: string | null;
  }[] = [];
  const corrections = [...garden.corrections];
  for (const chunk of chunksOf(corrections, rowsAtOnce)) {
    await storeRows(
      doing,
      'notes',
      chunk.map(({ row }) => row as AnyRow),
      checking,
      chunk.map(({ replaces }) => replaces),
    );
  }
  for (const { replaces, row } of corrections)
    endings.push({ kind: 'notes', record: replaces, what: 'replaced', by_record: row.id, reason: null });
  for (const { kind, id, reason } of garden.withdrawals)
    endings.push({ kind, record: id, what: 'withdrawn', by_record: null, reason });
  for (const kind of new Set(endings.map((ending) => ending.kind))) {
    const ids = endings.filter((ending) => ending.kind === kind).map(({ record }) => record);
    for (const chunk of chunksOf(ids, 5000)) {
      await anyTable(doing.tx)
        .updateTable(tableOf(kind))
        .set({ ended_act: doing.seq })
        .where('id', 'in', chunk)
        .execute();
    }
  }
  for (const chunk of chunksOf(endings, 3000)) {
    await doing.tx
      .insertInto('endings')
      .values(chunk.map((ending) => ({ id: newId(), act: doing.seq, ...ending })))
      .execute();
  }
}
