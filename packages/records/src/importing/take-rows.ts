import { type AnyRow, fieldAsText, fieldsOf, type KindName, kindOf } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { readMany } from '../reading/records.ts';
import { anyTable } from '../schema/any-table.ts';
import { tableOf } from '../schema/columns.ts';
import { type Act, digestOf } from '../writing/act.ts';
import { allProblems, type Checking, insertReady, type Ready } from '../writing/add.ts';
import { change } from '../writing/change.ts';
import { prepareReferences } from '../writing/encode.ts';
import { isId } from '../writing/references.ts';
import type { Interpreted } from './interpret.ts';
import { makeMissing } from './made.ts';
import type { ImportPlan, ImportProblem } from './plan.ts';
import { plantProblems } from './plants-agree.ts';
import type { Repeat, Repeats } from './repeats.ts';
import { missingColumns } from './survey.ts';
import type { Tally } from './tally.ts';

/** Checks records that were read from rows, tells what is wrong, and stores them while nothing is. */
export async function takeRows(
  doing: Act,
  plan: ImportPlan,
  rows: readonly Interpreted[],
  checking: Checking,
  tally: Tally,
  store: boolean,
  repeats: Repeats,
): Promise<void> {
  const { kind } = plan;
  const records = rows.map(({ record }) => record);
  await prepareReferences(checking.references, kind, records);
  const { made, missing } = await makeMissing(doing, plan, rows, checking, store && tally.isClean());
  for (const problem of await plantProblems(doing, rows, checking)) tally.problem(problem);
  for (const [of, count] of made) tally.count(of, count);
  for (const [of, codes] of missing) tally.miss(of, codes);
  // What no column holds was told once; it is not told again for every row.
  const lacking = new Set(missingColumns(plan));
  const checked = rows.flatMap((read) => {
    for (const problem of read.problems) tally.problem(problem);
    if (read.problems.length > 0) return [];
    const { problems, encoded } = allProblems(kind, read.record, checking);
    for (const { field, problem, remedy } of problems) {
      if (lacking.has(field)) continue;
      tally.problem({ row: read.row, column: read.columns.get(field) ?? field, problem, remedy });
    }
    return problems.length === 0 ? [{ ...read, encoded }] : [];
  });
  tellRepeats(checked, repeats, tally);
  const there = await alreadyThere(doing, kind, checked, repeats);
  const dayTaken = await repeats.daysTaken(doing, checked);
  const ready: Ready[] = [];
  const { key } = kindOf(kind);
  for (const read of checked) {
    const stored = await there(read);
    const taken = stored ? null : dayTaken(read.encoded);
    if (stored === 'same') tally.sameAsStored();
    else if (taken) tally.problem(placed(read, taken));
    else if (stored) await takeChange(doing, plan, stored, read, tally, store);
    else {
      const { record, encoded } = read;
      const settled = key ? checking.references.idOf(kind, record[key] as string) : null;
      tally.taken(kind, record);
      ready.push({ id: (record.id as string | undefined) ?? settled ?? newId(), encoded });
    }
  }
  if (store && tally.isClean()) await insertReady(doing, kind, ready);
}

/** Tells of each row that repeats an earlier one of the file. */
function tellRepeats(checked: readonly Checked[], repeats: Repeats, tally: Tally): void {
  for (let at = 0; at < checked.length; ) {
    const first = checked[at]!;
    const end = checked.findIndex(({ row }, index) => index > at && row !== first.row);
    const ofRow = checked.slice(at, end < 0 ? checked.length : end);
    const repeat = repeats.inFile(first.row, ofRow);
    if (repeat) tally.problem(placed(first, repeat));
    at += ofRow.length;
  }
}

const placed = ({ row, columns }: Interpreted, { field, problem, remedy }: Repeat): ImportProblem => ({
  row,
  column: columns.get(field) ?? null,
  problem,
  remedy,
});

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
  repeats: Repeats,
): Promise<(read: Checked) => Promise<(AnyRow & { id: string }) | 'same' | null>> {
  const { key, nature } = kindOf(kind);
  const codes = key
    ? checked.flatMap(({ record }) => (typeof record[key] === 'string' ? [record[key]] : []))
    : [];
  const ids = checked.flatMap(({ record: { id } }) => (typeof id === 'string' && isId(id) ? [id] : []));
  const stored = codes.length + ids.length > 0 ? await readMany(doing.tx, kind, { codes, ids }) : [];
  const byId = new Map(stored.map((row) => [row.id, row]));
  const byKey = new Map(stored.map((row) => [String(row[key ?? 'id']), row]));
  const digests = nature === 'fact' ? await storedDigests(doing, kind, checked) : null;
  return async ({ record, encoded }) => {
    if (digests && !record.id) return digests.has(digestOf(encoded.columns)) ? 'same' : null;
    if (!key && !record.id) return (await repeats.isStanding(doing, record)) ? 'same' : null;
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
    // What this very file said before is no sign that it came before.
    .where('made_act', '!=', doing.seq)
    .execute();
  return new Set(rows.map(({ digest }) => digest as string));
}
