import {
  type AnyRow,
  fieldAsText,
  fieldsOf,
  type KindName,
  kindOf,
  type TraitRule,
} from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import type { Programme } from '../database/programme.ts';
import { readSettings, todayIn } from '../database/settings.ts';
import { inWords } from '../database/trouble.ts';
import { RecordsError } from '../errors.ts';
import { readMany } from '../reading/records.ts';
import { anyTable } from '../schema/any-table.ts';
import { hasParents, tableOf } from '../schema/columns.ts';
import type { OpenedTable } from '../tables/index.ts';
import { type Act, type ActBy, act, digestOf } from '../writing/act.ts';
import { allProblems, type Checking, checkingFor, insertReady, type Ready } from '../writing/add.ts';
import { change } from '../writing/change.ts';
import { prepareReferences } from '../writing/encode.ts';
import { refuseLoops } from '../writing/loops.ts';
import { isId } from '../writing/references.ts';
import { type Interpreted, Interpreter } from './interpret.ts';
import { learnTraits, makeMissing, makeNewTraits } from './made.ts';
import type { ImportOutcome, ImportPlan } from './plan.ts';
import { plantProblems } from './plants-agree.ts';
import { missingColumns, type Survey, survey } from './survey.ts';
import { Tally } from './tally.ts';

/** One file, or one sheet of it, and how to read it. */
export interface ImportPart {
  readonly table: OpenedTable;
  readonly plan: ImportPlan;
  /** SHA-256 of the file, by which it is known when it comes again. */
  readonly hash: string;
}

export interface TakingIn {
  readonly by: ActBy;
  /** false: only says what would be done. */
  readonly store: boolean;
  /** share: 0 to 1. */
  readonly onProgress?: (share: number, step: string) => void;
  readonly isStopped?: () => boolean;
}

/** Thrown to undo an act whose outcome is to be told all the same. */
class Undone extends Error {}

const rowsAtOnce = 1000;

/**
 * Takes files in: all of them, or nothing. Says all that is wrong by row and column, what only the user can answer,
 * and what the files name that is not there. Nothing is stored while there is a problem or an open question.
 * Files are read twice: first for their habits (order of dates, decimal mark, keys), then for good.
 */
export async function takeIn(
  programme: Programme,
  parts: readonly ImportPart[],
  taking: TakingIn,
): Promise<ImportOutcome> {
  const tally = new Tally();
  // Loops in parentage and references between files show only when stored: a dry run then stores and undoes it.
  const needsStore = taking.store || parts.length > 1 || parts.some(({ plan }) => hasParents(plan.kind));
  const [first] = parts;
  const by: ActBy = first ? { ...taking.by, file: { name: first.table.name, hash: first.hash } } : taking.by;
  const finished = () => taking.store && tally.isClean();
  try {
    if (needsStore) {
      await act(programme, by, async (doing) => {
        await takeParts(doing, parts, taking, tally, true);
        if (!finished()) throw new Undone();
      });
    } else {
      const settings = await readSettings(programme.read);
      const today = todayIn(settings?.timeZone ?? 'UTC', new Date());
      await takeParts({ tx: programme.read as Act['tx'], seq: -1, today }, parts, taking, tally, false);
    }
  } catch (error) {
    if (!(error instanceof Undone)) throw inWords(error);
  }
  return tally.outcome();
}

async function takeParts(
  doing: Act,
  parts: readonly ImportPart[],
  taking: TakingIn,
  tally: Tally,
  store: boolean,
): Promise<void> {
  const checking = await checkingFor(doing);
  const surveys = new Map<ImportPart, Survey>();
  for (const part of parts) {
    tally.file = parts.length > 1 ? (part.table.sheet ?? part.table.name) : undefined;
    if (!part.plan.again) await refuseSecondTime(doing, part, tally);
    for (const field of missingColumns(part.plan)) {
      const declared = kindOf(part.plan.kind).fields[field]!;
      tally.problem({
        row: null,
        column: null,
        problem: `no column holds “${field}”: ${declared.meaning}`,
        remedy: 'say which column it is, or give one value for all rows',
      });
    }
    const looked = await survey(part.table, part.plan, checking.traits, doing.today);
    surveys.set(part, looked);
    tally.looked(looked, part.table.findings);
  }
  if (tally.hasQuestions()) return;
  const total = Math.max(
    1,
    [...surveys.values()].reduce((sum, { rows }) => sum + rows, 0),
  );
  let done = 0;
  await learnKeys(parts, surveys, checking);
  for (const part of parts) {
    tally.file = parts.length > 1 ? (part.table.sheet ?? part.table.name) : undefined;
    tally.count('traits', await makeNewTraits(doing, part.plan, checking, store && tally.isClean()));
    const interpreter = new Interpreter(
      part.plan,
      part.table,
      surveys.get(part)!.conventions,
      checking.traits,
    );
    let waiting: Interpreted[] = [];
    const flush = async () => {
      await takeRows(doing, part.plan, waiting, checking, tally, store);
      waiting = [];
      taking.onProgress?.(done / total, kindOf(part.plan.kind).many);
      if (taking.isStopped?.()) throw new RecordsError('conflict', 'stopped; nothing was stored');
    };
    for await (const row of part.table.rows) {
      done += 1;
      waiting.push(...interpreter.read(row));
      if (waiting.length >= rowsAtOnce) await flush();
    }
    await flush();
  }
  if (store && tally.isClean() && parts.some(({ plan }) => hasParents(plan.kind))) {
    await refuseLoops(doing).catch((error: unknown) => {
      if (!(error instanceof RecordsError)) throw error;
      tally.problem({ row: null, column: 'parents', problem: error.message, remedy: error.remedy });
    });
  }
}

async function refuseSecondTime(doing: Act, { hash, table }: ImportPart, tally: Tally): Promise<void> {
  const before = await doing.tx
    .selectFrom('acts')
    .select(['at', 'file_name'])
    .where('file_hash', '=', hash)
    .where('seq', '!=', doing.seq)
    .executeTakeFirst();
  if (!before) return;
  const as = before.file_name === table.name ? '' : ` as “${before.file_name}”`;
  tally.problem({
    row: null,
    column: null,
    problem: `this very file was taken in on ${before.at.slice(0, 10)}${as}`,
    remedy: 'nothing needs to be done; to take it in all the same, say “again”',
  });
}

/** Records of the files may refer to one another in any order: their ids are settled before any row is read. */
async function learnKeys(
  parts: readonly ImportPart[],
  surveys: ReadonlyMap<ImportPart, Survey>,
  checking: Checking,
): Promise<void> {
  for (const part of parts) {
    const codes = [...surveys.get(part)!.keys.keys()];
    await checking.references.prepare(part.plan.kind, codes);
    const idColumn = part.plan.columns.findIndex(
      (use) => use !== null && 'field' in use && use.field === 'id',
    );
    const keyColumn = part.plan.columns.findIndex(
      (use) => use !== null && 'field' in use && use.field === kindOf(part.plan.kind).key,
    );
    if (idColumn >= 0 && keyColumn >= 0) {
      for await (const { cells } of part.table.rows) {
        const [id, code] = [cells[idColumn]?.text.trim(), cells[keyColumn]?.text.trim()];
        if (id && code && isId(id) && checking.references.idOf(part.plan.kind, code) === null)
          checking.references.learn(part.plan.kind, code, id);
      }
    }
    for (const code of codes) {
      if (checking.references.idOf(part.plan.kind, code) === null)
        checking.references.learn(part.plan.kind, code, newId());
    }
  }
}

async function takeRows(
  doing: Act,
  plan: ImportPlan,
  rows: readonly Interpreted[],
  checking: Checking,
  tally: Tally,
  store: boolean,
): Promise<void> {
  const { kind } = plan;
  const records = rows.map(({ record }) => record);
  await prepareReferences(checking.references, kind, records);
  const { made, missing } = await makeMissing(doing, plan, rows, checking, store && tally.isClean());
  for (const problem of await plantProblems(doing, rows, checking)) tally.problem(problem);
  for (const [of, count] of made) tally.count(of, count);
  for (const [of, codes] of missing) tally.miss(of, codes);
  const checked = rows.flatMap((read) => {
    for (const problem of read.problems) tally.problem(problem);
    if (read.problems.length > 0) return [];
    const { problems, encoded } = allProblems(kind, read.record, checking);
    for (const { field, problem, remedy } of problems) {
      tally.problem({ row: read.row, column: read.columns.get(field) ?? field, problem, remedy });
    }
    return problems.length === 0 ? [{ ...read, encoded }] : [];
  });
  const there = await alreadyThere(doing, kind, checked);
  const ready: Ready[] = [];
  const { key } = kindOf(kind);
  for (const read of checked) {
    const stored = there(read);
    if (stored === 'same') tally.sameAsStored();
    else if (stored) await takeChange(doing, plan, stored, read, tally, store);
    else {
      const { record, encoded } = read;
      const settled = key ? checking.references.idOf(kind, record[key] as string) : null;
      tally.taken(kind, record);
      ready.push({ id: (record.id as string | undefined) ?? settled ?? newId(), encoded });
    }
  }
  if (kind === 'traits')
    learnTraits(
      checking.traits as Map<string, TraitRule>,
      records,
      records.map(() => newId()),
    );
  if (store && tally.isClean()) await insertReady(doing, kind, ready);
}

type Checked = Interpreted & { readonly encoded: Ready['encoded'] };

async function takeChange(
  doing: Act,
  plan: ImportPlan,
  stored: AnyRow & { id: string },
  { record, row, columns }: Checked,
  tally: Tally,
  store: boolean,
): Promise<void> {
  const { one, nature, fields } = kindOf(plan.kind);
  const differing = differences(plan.kind, stored, record);
  const shown = differing
    .map(
      (name) =>
        `${name} ${fieldAsText(fields[name]!, stored[name]) || 'empty'} → ${fieldAsText(fields[name]!, record[name])}`,
    )
    .join(', ');
  if (nature === 'fact' || plan.ifThere !== 'change') {
    tally.problem({
      row,
      column: columns.get(differing[0]!) ?? differing[0]!,
      problem: `this ${one} is there already and says otherwise (${shown})`,
      remedy:
        nature === 'fact'
          ? 'a fact is corrected on its own page'
          : 'take the row out, or choose to change what is there',
    });
    return;
  }
  tally.changes();
  if (store && tally.isClean())
    await change(
      doing,
      plan.kind,
      stored.id,
      Object.fromEntries(differing.map((name) => [name, record[name] ?? null])),
    );
}

const differences = (kind: KindName, stored: AnyRow, given: AnyRow): string[] =>
  fieldsOf(kind)
    .filter(
      ([name, field]) =>
        given[name] !== null &&
        given[name] !== undefined &&
        fieldAsText(field, stored[name]) !== fieldAsText(field, given[name]),
    )
    .map(([name]) => name);

/**
 * Which of the records are stored already: by id or code, and facts without an id by all that they say. The answer
 * for one of them: 'same' word for word, the stored record where it says otherwise, null where it is new.
 */
async function alreadyThere(
  doing: Act,
  kind: KindName,
  checked: readonly Checked[],
): Promise<(read: Checked) => (AnyRow & { id: string }) | 'same' | null> {
  const { key, nature } = kindOf(kind);
  const codes = key
    ? checked.flatMap(({ record }) => (typeof record[key] === 'string' ? [record[key]] : []))
    : [];
  const ids = checked.flatMap(({ record: { id } }) => (typeof id === 'string' && isId(id) ? [id] : []));
  const stored = codes.length + ids.length > 0 ? await readMany(doing.tx, kind, { codes, ids }) : [];
  const byId = new Map(stored.map((row) => [row.id, row]));
  const byKey = new Map(stored.map((row) => [String(row[key ?? 'id']), row]));
  const digests = nature === 'fact' ? await storedDigests(doing, kind, checked) : null;
  return ({ record, encoded }) => {
    if (digests && !record.id) return digests.has(digestOf(encoded.columns)) ? 'same' : null;
    const row = byId.get(String(record.id)) ?? (key ? byKey.get(String(record[key])) : undefined);
    if (!row) return null;
    return differences(kind, row, record).length === 0 ? 'same' : row;
  };
}

async function storedDigests(doing: Act, kind: KindName, checked: readonly Checked[]): Promise<Set<string>> {
  const asked = checked.flatMap(({ record, encoded }) => (record.id ? [] : [digestOf(encoded.columns)]));
  if (asked.length === 0) return new Set();
  const rows = await anyTable(doing.tx)
    .selectFrom(tableOf(kind))
    .select('digest')
    .where('digest', 'in', asked)
    .where('ended_act', 'is', null)
    .execute();
  return new Set(rows.map(({ digest }) => digest as string));
}
