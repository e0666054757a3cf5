import { type FieldProblem, type KindName, kindOf, rowProblems } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import type { Act } from './act.ts';
import { allProblems, checkingFor, insertReady, type Ready, storedAlready } from './add.ts';
import { prepareReferences } from './encode.ts';
import { endFacts, endThoseAwaited, type FactEnding } from './end-facts.ts';
import type { KindHandedOver, RowToTake, Sender } from './fact-to-take.ts';
import { rememberPictures, takeKnownPictures } from './pictures-taken.ts';
import { isId } from './references.ts';
import { whatBecameOf } from './what-became-of.ts';

/**
 * Stores facts of one kind together: each is stored, or its reason is put into problems by its id. One whose id is
 * stored already is passed over.
 */
export async function storeBatch(
  act: Act,
  by: Sender,
  kind: KindHandedOver,
  facts: readonly RowToTake[],
  problems: Map<string, string>,
): Promise<void> {
  const checking = await checkingFor(act);
  const refuse = (id: string, problem: FieldProblem) =>
    problems.set(id, problem.remedy ? `${problem.problem}; ${problem.remedy}` : problem.problem);
  const own = await freshOnes(act, kind, facts, problems);
  let wanted: RowToTake[] = own
    .map((fact) => ({ ...fact, row: { ...fact.row, by: fact.row.by ?? by.person } }))
    .filter((fact) => {
      const problem = rowProblems(kind, fact.row, checking.today)[0];
      if (problem) refuse(fact.id, problem);
      return !problem;
    });
  const rows = () => wanted.map(({ row }) => row);
  await prepareReferences(checking.references, kind, rows());
  if (kind === 'photos') wanted = await takeKnownPictures(act, wanted);
  if (kind === 'notes') await rememberPictures(act, checking, rows());
  const ready: Ready[] = [];
  for (const { id, row, replaces } of wanted) {
    const { problems: found, encoded } = allProblems(kind, row, checking);
    if (found.length === 0) ready.push({ id, encoded, ...(replaces ? { replaces } : {}) });
    else refuse(id, await whatBecameOf(act, kind, row, found[0]!));
  }
  await insertReady(act, kind, ready);
  if (kindOf(kind).nature !== 'fact' || ready.length === 0) return;
  await endThoseAwaited(
    act,
    by,
    kind,
    ready.map(({ id }) => id),
  );
  const replaced = ready.flatMap(({ id, replaces }): FactEnding[] =>
    replaces ? [{ id: newId(), fact: replaces, what: 'replaced', byFact: id }] : [],
  );
  await endFacts(act, by, kind, replaced, new Map());
}

/** Those with an id of the right form that is not stored yet, each once. */
async function freshOnes(
  act: Act,
  kind: KindName,
  facts: readonly RowToTake[],
  problems: Map<string, string>,
): Promise<RowToTake[]> {
  const sound = facts.filter(({ id, replaces }) => {
    if (isId(id) && (replaces === undefined || (isId(replaces) && replaces !== id))) return true;
    problems.set(
      id,
      replaces === id ? 'a fact cannot correct itself' : `“${isId(id) ? replaces : id}” is not a UUID`,
    );
    return false;
  });
  const there = await storedAlready(
    act,
    kind,
    sound.map(({ id }) => id),
  );
  return sound.filter(({ id }) => !there.has(id) && there.add(id));
}
