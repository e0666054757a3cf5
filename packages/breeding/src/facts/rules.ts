import type { KindName } from './catalogue.ts';
import type { AnyRow } from './field.ts';
import type { FieldProblem } from './problem.ts';

/** Rules between the fields of one record; limits of single fields stand with the fields. */
type Rule = (row: AnyRow) => FieldProblem | null;

const number = (row: AnyRow, field: string): number | null =>
  typeof row[field] === 'number' ? (row[field] as number) : null;
const text = (row: AnyRow, field: string): string | null =>
  typeof row[field] === 'string' && row[field] !== '' ? (row[field] as string) : null;

const notMoreThan =
  (less: string, more: string, problem: string): Rule =>
  (row) => {
    const [a, b] = [number(row, less), number(row, more)];
    return a !== null && b !== null && a > b
      ? {
          field: less,
          problem: `${less} is ${a} and ${more} is ${b}: ${problem}`,
          remedy: 'are the two exchanged?',
        }
      : null;
  };

const notBefore =
  (later: string, earlier: string, problem: string): Rule =>
  (row) => {
    const [a, b] = [text(row, later), text(row, earlier)];
    return a !== null && b !== null && a < b
      ? {
          field: later,
          problem: `${later} ${a} lies before ${earlier} ${b}: ${problem}`,
          remedy: 'mend one of the two dates',
        }
      : null;
  };

const noteHasValue: Rule = (row) => {
  const seen = (row.state ?? 'seen') === 'seen';
  const empty = row.value === null || row.value === undefined || row.value === '';
  if (seen && empty && !row.photo)
    return {
      field: 'value',
      problem: 'the note has no value',
      remedy: 'give the value, or say why there is none under state (not yet, dead, missing, skipped)',
    };
  if (!seen && !empty)
    return {
      field: 'value',
      problem: `a note of state “${String(row.state)}” has no value`,
      remedy: 'take out the value or the state',
    };
  return null;
};

const rules: Partial<Record<KindName, readonly Rule[]>> = {
  notes: [noteHasValue],
  weather: [notMoreThan('tmin_c', 'tmax_c', 'the lowest temperature is above the highest')],
  plants: [notBefore('gone_on', 'planted_on', 'a plant is gone after it was planted')],
  'germination-tests': [notMoreThan('germinated', 'seeds', 'more germinated than were sown')],
  'pollen-tests': [notMoreThan('germinated', 'counted', 'more grains germinated than were counted')],
  harvests: [notMoreThan('pods_gathered', 'pods_set', 'more pods gathered than had set')],
  traits: [
    notMoreThan('least', 'most', 'the least is above the most'),
    (row) =>
      row.sort === 'classed' && !(Array.isArray(row.classes) && row.classes.length > 0)
        ? {
            field: 'classes',
            problem: 'a classed trait lists its classes',
            remedy: 'write them as bare | leafy',
          }
        : null,
  ],
  terms: [notBefore('until_date', 'from_date', 'the term ends before it begins')],
  trials: [notBefore('ended_on', 'planted_on', 'the trial ends before it begins')],
  'brief-limits': [notMoreThan('at_least', 'at_most', 'no plant can meet it')],
  pollinations: [notBefore('bag_off_on', 'on', 'the bag came off before the pollination')],
};

/** What is wrong between the fields of a record. */
export const ruleProblems = (kind: KindName, row: AnyRow): FieldProblem[] =>
  (rules[kind] ?? []).map((rule) => rule(row)).filter((problem) => problem !== null);
