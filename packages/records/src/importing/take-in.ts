import { kindOf, rowProblems, type TraitRule } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import type { Programme } from '../database/programme.ts';
import { readSettings, todayIn } from '../database/settings.ts';
import { inWords } from '../database/trouble.ts';
import { RecordsError } from '../errors.ts';
import { hasParents } from '../schema/columns.ts';
import type { OpenedTable } from '../tables/index.ts';
import { type Act, type ActBy, act } from '../writing/act.ts';
import { type Checking, checkingFor } from '../writing/add.ts';
import { LoopError, refuseLoops } from '../writing/loops.ts';
import { isId } from '../writing/references.ts';
import { type Interpreted, Interpreter } from './interpret.ts';
import { learnTraits, makeNewTraits } from './made.ts';
import type { ImportOutcome, ImportPlan } from './plan.ts';
import { Repeats } from './repeats.ts';
import { shapeProblems } from './shape-problems.ts';
import { missingColumns, type Survey, survey } from './survey.ts';
import { takeRows } from './take-rows.ts';
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
  const by: ActBy = first
    ? { ...taking.by, file: { name: first.table.name, hash: markOf(first) } }
    : taking.by;
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

/** The file as problems name it, with its sheet where several sheets are taken in. */
const placeOf = ({ table: { name, sheet } }: ImportPart, parts: readonly ImportPart[]): string =>
  sheet && parts.length > 1 ? `${name}, sheet ${sheet}` : name;

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
    tally.file = placeOf(part, parts);
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
    for (const problem of shapeProblems(part.table, part.plan)) tally.problem(problem);
    if (part.plan.kind === 'traits') await learnTraitsAhead(part, looked, checking);
  }
  if (tally.hasQuestions()) return;
  const total = Math.max(
    1,
    [...surveys.values()].reduce((sum, { rows }) => sum + rows, 0),
  );
  let done = 0;
  await learnKeys(parts, surveys, checking);
  for (const part of parts) {
    tally.file = placeOf(part, parts);
    tally.count('traits', await makeNewTraits(doing, part.plan, checking, store && tally.isClean()));
    const interpreter = new Interpreter(
      part.plan,
      part.table,
      surveys.get(part)!.conventions,
      checking.traits,
    );
    const repeats = new Repeats(part.plan.kind);
    let waiting: Interpreted[] = [];
    const flush = async () => {
      await takeRows(doing, part.plan, waiting, checking, tally, store, repeats);
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
      if (!(error instanceof LoopError)) throw error;
      const rows = [...surveys.values()].flatMap(({ keys }) =>
        error.codes.flatMap((code) => keys.get(code) ?? []),
      );
      const row = rows.length > 0 ? Math.min(...rows) : null;
      tally.problem({ row, column: null, problem: error.message, remedy: error.remedy });
    });
  }
}

/** How notes are to be read depends on their traits, which may come in the same files. */
async function learnTraitsAhead(part: ImportPart, looked: Survey, checking: Checking): Promise<void> {
  const interpreter = new Interpreter(part.plan, part.table, looked.conventions, checking.traits);
  for await (const row of part.table.rows) {
    for (const { record, problems } of interpreter.read(row)) {
      const isSound = problems.length === 0 && rowProblems('traits', record, checking.today).length === 0;
      if (isSound) learnTraits(checking.traits as Map<string, TraitRule>, [record]);
    }
  }
}

/** By what a file is known again: another sheet of it, or the same one read as another kind, is another matter. */
const markOf = ({ hash, table, plan }: ImportPart): string => [hash, table.sheet ?? '', plan.kind].join(' ');

async function refuseSecondTime(doing: Act, part: ImportPart, tally: Tally): Promise<void> {
  const before = await doing.tx
    .selectFrom('acts')
    .select(['at', 'file_name'])
    .where('file_hash', '=', markOf(part))
    .where('seq', '!=', doing.seq)
    .executeTakeFirst();
  if (!before) return;
  const as = before.file_name === part.table.name ? '' : ` as “${before.file_name}”`;
  tally.problem({
    row: null,
    column: null,
    problem: `this very file was taken in on ${before.at.slice(0, 10)}${as}`,
    remedy: 'nothing needs to be done; to take it in all the same, choose so (--again in the command)',
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
