import type { Programme } from '../database/programme.ts';
import { RecordsError } from '../errors.ts';
import { type Act, act } from './act.ts';
import { endFacts } from './end-facts.ts';
import {
  type FactToTake,
  kindsHandedOver,
  type RowToTake,
  type Sender,
  type Taken,
  type WithdrawalToTake,
} from './fact-to-take.ts';
import { storeBatch } from './store-batch.ts';

/**
 * Takes facts in, in whatever order they come and however often: each is stored once, or comes back with the reason in
 * words. A batch is one act; where the database itself refuses it, its facts are taken one by one. A correction of a
 * fact that another person made, or that was corrected before, is stored beside it, to be settled by the owner; one
 * that comes before what it corrects ends that fact when it arrives.
 * Throws RecordsError where the store cannot be written; nothing of the batch is then stored.
 */
export async function takeFacts(
  programme: Programme,
  by: Sender,
  facts: readonly FactToTake[],
): Promise<Taken[]> {
  if (facts.length === 0) return [];
  try {
    const problems = await act(programme, by, (doing) => takeAll(doing, by, facts));
    return facts.map(({ id }) => ({ id, problem: problems.get(id) ?? null }));
  } catch (error) {
    if (!(error instanceof RecordsError) || error.because === 'store') throw error;
    if (facts.length === 1) return [{ id: facts[0]!.id, problem: inOneSentence(error) }];
  }
  const taken: Taken[] = [];
  for (const fact of facts) taken.push(...(await takeFacts(programme, by, [fact])));
  return taken;
}

const inOneSentence = ({ message, remedy }: RecordsError): string =>
  remedy ? `${message}; ${remedy}` : message;

/** Problems by the facts' ids. What is refused leaves the others alone. */
async function takeAll(
  doing: Act,
  by: Sender,
  facts: readonly FactToTake[],
): Promise<ReadonlyMap<string, string>> {
  const problems = new Map<string, string>();
  for (const kind of kindsHandedOver) {
    const rows = facts.filter((fact): fact is RowToTake => fact.kind === kind);
    if (rows.length > 0) await storeBatch(doing, by, kind, rows, problems);
  }
  const withdrawals = facts.filter((fact): fact is WithdrawalToTake => fact.kind === 'withdrawal');
  await endFacts(
    doing,
    by,
    'notes',
    withdrawals.map(({ id, of, reason }) => ({ id, fact: of.id, what: 'withdrawn', reason })),
    problems,
  );
  return problems;
}
