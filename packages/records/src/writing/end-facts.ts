import type { KindName } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { anyTable } from '../schema/any-table.ts';
import { tableOf } from '../schema/columns.ts';
import type { Act } from './act.ts';
import type { Sender } from './fact-to-take.ts';
import { isId } from './references.ts';

/** That a fact ceases to stand: a later one corrects it, or it was withdrawn for a reason. */
export interface FactEnding {
  /** Id under which the ending is stored, once. */
  readonly id: string;
  readonly fact: string;
  readonly what: 'replaced' | 'withdrawn';
  readonly byFact?: string;
  readonly reason?: string;
}

interface Target {
  readonly id: string;
  readonly ended_act: number | null;
  readonly person: string | null;
}

/**
 * Ends facts of one kind. One that has ended stays as it ended first. A withdrawal that comes before its fact is kept
 * and ends it when it arrives (see endThoseAwaited); a withdrawal that is refused gets its reason in problems, by id.
 */
export async function endFacts(
  act: Act,
  by: Sender,
  kind: KindName,
  endings: readonly FactEnding[],
  problems: Map<string, string>,
): Promise<void> {
  const sound = endings.filter((ending) => {
    const problem = shapeProblem(ending);
    if (problem) problems.set(ending.id, problem);
    return problem === null;
  });
  if (sound.length === 0) return;
  const known = await act.tx
    .selectFrom('endings')
    .select('id')
    .where(
      'id',
      'in',
      sound.map(({ id }) => id),
    )
    .execute();
  const done = new Set(known.map(({ id }) => id));
  const targets = await targetsOf(
    act,
    kind,
    sound.map(({ fact }) => fact),
  );
  const stored: FactEnding[] = [];
  const ended = new Set<string>();
  for (const ending of sound) {
    if (done.has(ending.id)) continue;
    done.add(ending.id);
    const target = targets.get(ending.fact);
    if (!target && ending.what === 'replaced') continue;
    if (target && (target.ended_act !== null || ended.has(target.id))) continue;
    if (target && !by.mayCorrectOthers && target.person !== by.person) {
      if (ending.what === 'withdrawn') problems.set(ending.id, othersNote);
      continue;
    }
    stored.push(ending);
    if (target) ended.add(target.id);
  }
  await storeEndings(act, kind, stored, [...ended]);
}

const othersNote =
  'another person made this note, and only that person or the owner can strike it out; note what you see beside it, and the owner settles which of them holds';

function shapeProblem({ id, fact, what, reason }: FactEnding): string | null {
  if (!isId(id) || !isId(fact)) return 'a withdrawal and what it withdraws are named by UUIDs';
  if (what === 'withdrawn' && (reason ?? '').trim() === '')
    return 'a withdrawal says why; give the reason in a few words';
  return null;
}

async function targetsOf(act: Act, kind: KindName, ids: readonly string[]): Promise<Map<string, Target>> {
  const table = tableOf(kind);
  const rows = await anyTable(act.tx)
    .selectFrom(table)
    .innerJoin('acts', 'acts.seq', `${table}.made_act`)
    .select([`${table}.id`, `${table}.ended_act`, 'acts.person'])
    .where(`${table}.id`, 'in', ids)
    .execute();
  return new Map((rows as unknown as Target[]).map((row) => [row.id, row]));
}

async function storeEndings(
  act: Act,
  kind: KindName,
  endings: readonly FactEnding[],
  ended: readonly string[],
): Promise<void> {
  if (ended.length > 0) {
    await anyTable(act.tx)
      .updateTable(tableOf(kind))
      .set({ ended_act: act.seq })
      .where('id', 'in', ended)
      .execute();
  }
  if (endings.length === 0) return;
  await act.tx
    .insertInto('endings')
    .values(
      endings.map(({ id, fact, what, byFact, reason }) => ({
        id,
        act: act.seq,
        kind,
        record: fact,
        what,
        by_record: byFact ?? null,
        reason: reason ?? null,
      })),
    )
    .execute();
}

/**
 * Ends facts that have just been stored where their correction or withdrawal, made by the same person, came before
 * them. ids: of the facts.
 */
export async function endThoseAwaited(
  act: Act,
  by: Sender,
  kind: KindName,
  ids: readonly string[],
): Promise<void> {
  const table = tableOf(kind);
  const withdrawn = await act.tx
    .selectFrom('endings')
    .innerJoin('acts', 'acts.seq', 'endings.act')
    .select('endings.record')
    .where('endings.record', 'in', ids)
    .where('endings.kind', '=', kind)
    .where('acts.person', by.person === null ? 'is' : '=', by.person)
    .execute();
  await storeEndings(
    act,
    kind,
    [],
    withdrawn.map(({ record }) => record),
  );
  const corrections = (await anyTable(act.tx)
    .selectFrom(table)
    .innerJoin('acts', 'acts.seq', `${table}.made_act`)
    .select([`${table}.id`, `${table}.replaces`])
    .where(`${table}.replaces`, 'in', ids)
    .where('acts.person', by.person === null ? 'is' : '=', by.person)
    .orderBy(`${table}.made_act`)
    .execute()) as unknown as { id: string; replaces: string }[];
  const endings = corrections.map(
    ({ id, replaces }): FactEnding => ({ id: newId(), fact: replaces, what: 'replaced', byFact: id }),
  );
  await endFacts(act, by, kind, endings, new Map());
}
