import {
  type AnyRow,
  type FieldProblem,
  type KindName,
  kindOf,
  labelOf,
  rowProblems,
  type TraitRule,
} from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { fieldError, RecordsError } from '../errors.ts';
import { anyTable, chunksOf } from '../schema/any-table.ts';
import { hasParents, parentsTableOf, tableOf } from '../schema/columns.ts';
import { type Act, digestOf } from './act.ts';
import { type Encoded, encode, prepareReferences } from './encode.ts';
import { refuseLoops } from './loops.ts';
import { noteValueProblem, traitRules } from './note-values.ts';
import { isId, References } from './references.ts';
import { storableProblems } from './storable.ts';

/** Databases take a limited number of values in one statement (SQLite 32,766). */
const valuesAtOnce = 30_000;

/** A record ready to be stored. */
export interface Ready {
  readonly id: string;
  readonly encoded: Encoded;
  readonly replaces?: string;
}

/** What is needed to check rows of a kind, fetched once for many. */
export interface Checking {
  readonly references: References;
  readonly traits: ReadonlyMap<string, TraitRule>;
  readonly today: string;
}

export async function checkingFor(act: Pick<Act, 'tx' | 'today'>): Promise<Checking> {
  return { references: new References(act.tx), traits: await traitRules(act.tx), today: act.today };
}

/** All that is wrong with a row, its references included; they must have been prepared. */
export function allProblems(
  kind: KindName,
  row: AnyRow,
  checking: Checking,
): { problems: FieldProblem[]; encoded: Encoded } {
  const problems = rowProblems(kind, row, checking.today);
  if (problems.length === 0) problems.push(...storableProblems(kind, row));
  const encoded = encode(kind, row, checking.references);
  problems.push(...encoded.problems);
  if (kind === 'notes' && problems.length === 0) {
    const problem = noteValueProblem(row, checking.traits);
    if (problem) problems.push(problem);
  }
  return { problems, encoded };
}

/** Stores rows that were checked, in as few statements as the database takes. */
export async function insertReady(act: Act, kind: KindName, rows: readonly Ready[]): Promise<void> {
  if (rows.length === 0) return;
  const db = anyTable(act.tx);
  const isFact = kindOf(kind).nature === 'fact';
  const stored = rows.map(({ id, encoded, replaces }) => ({
    id,
    made_act: act.seq,
    ...encoded.columns,
    ...(isFact ? { replaces: replaces ?? null, digest: digestOf(encoded.columns) } : {}),
  }));
  const told = withoutEmpty(stored);
  const size = Math.max(1, Math.floor(valuesAtOnce / Object.keys(told[0]!).length));
  for (const chunk of chunksOf(told, size)) await db.insertInto(tableOf(kind)).values(chunk).execute();
  if (!hasParents(kind)) return;
  const parents = rows.flatMap(({ id, encoded }) =>
    encoded.parents.map((parent) => ({ owner: id, ...parent })),
  );
  for (const chunk of chunksOf(parents, Math.floor(valuesAtOnce / 5))) {
    await db.insertInto(parentsTableOf(kind)).values(chunk).execute();
  }
}

/** Rows without the columns that are null in all of them: half of a note's, and time goes with the values handed over. */
function withoutEmpty(rows: readonly Record<string, unknown>[]): Record<string, unknown>[] {
  const names = Object.keys(rows[0]!).filter((name) => rows.some((row) => row[name] !== null));
  return rows.map((row) => Object.fromEntries(names.map((name) => [name, row[name]])));
}

/**
 * Stores records made elsewhere or here; each row may bring its own id (UUIDv7). A row whose id is stored already is
 * passed over: a fact that arrives twice is stored once. Returns the ids in the order of the rows.
 * Throws RecordsError at the first row with something wrong; nothing of the act is then stored.
 */
export async function add(
  act: Act,
  kind: KindName,
  rows: readonly AnyRow[],
  replaces?: string,
): Promise<string[]> {
  const checking = await checkingFor(act);
  const ids = rows.map((row) => (typeof row.id === 'string' ? row.id : newId()));
  const key = kindOf(kind).key;
  for (const [index, row] of rows.entries()) {
    if (!isId(ids[index]!))
      throw new RecordsError('input', `“${ids[index]}” is not a UUID`, 'leave the id out; one is made');
    if (key && typeof row[key] === 'string') checking.references.learn(kind, row[key], ids[index]!);
  }
  await prepareReferences(checking.references, kind, rows);
  const there = await storedAlready(act, kind, ids);
  const ready: Ready[] = [];
  const fresh: AnyRow[] = [];
  for (const [index, row] of rows.entries()) {
    if (there.has(ids[index]!)) continue;
    const { problems, encoded } = allProblems(kind, row, checking);
    if (problems.length > 0) throw fieldError(`${kindOf(kind).one} ${labelOf(kind, row)}`.trim(), problems);
    ready.push({ id: ids[index]!, encoded, ...(replaces ? { replaces } : {}) });
    fresh.push(row);
    there.add(ids[index]!);
  }
  await refuseTakenCodes(act, kind, fresh);
  await insertReady(act, kind, ready);
  if (hasParents(kind)) await refuseLoops(act);
  return ids;
}

export async function storedAlready(act: Act, kind: KindName, ids: readonly string[]): Promise<Set<string>> {
  const there = new Set<string>();
  for (const chunk of chunksOf(ids, 5000)) {
    const rows = await anyTable(act.tx)
      .selectFrom(tableOf(kind))
      .select('id')
      .where('id', 'in', chunk)
      .execute();
    for (const { id } of rows) there.add(id as string);
  }
  return there;
}

async function refuseTakenCodes(act: Act, kind: KindName, rows: readonly AnyRow[]): Promise<void> {
  const key = kindOf(kind).key;
  if (!key || rows.length === 0) return;
  const codes = rows.map((row) => row[key] as string);
  const seen = new Set<string>();
  const twice = codes.find((code) => seen.size === seen.add(code).size);
  if (twice)
    throw new RecordsError('conflict', `the code “${twice}” is given twice`, 'give each its own', {
      field: key,
    });
  for (const chunk of chunksOf(codes, 5000)) {
    const taken = await anyTable(act.tx)
      .selectFrom(tableOf(kind))
      .select([key, 'ended_act'])
      .where(key, 'in', chunk)
      .executeTakeFirst();
    if (taken) {
      const since =
        taken.ended_act === null ? '' : ' (by one that was withdrawn; codes are never used again)';
      throw new RecordsError(
        'conflict',
        `the code “${String(taken[key])}” is taken${since}`,
        'use another code',
        { field: key },
      );
    }
  }
}
