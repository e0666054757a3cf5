import { fieldsOf, keptAs, kindOf, type TraitRule } from '@keelrow/breeding/facts';
import { type Cell, examineDates, examineNumbers, type OpenedTable } from '../tables/index.ts';
import type { Conventions } from './cells.ts';
import type { ColumnUse, ImportPlan, ImportProblem, ImportQuestion } from './plan.ts';

/** What a look through the whole file tells before any row is read for good. */
export interface Survey {
  readonly rows: number;
  readonly conventions: Conventions;
  readonly questions: readonly ImportQuestion[];
  readonly problems: readonly ImportProblem[];
  /** Keys of the records in the file, with their rows: they may refer to one another in any order. */
  readonly keys: ReadonlyMap<string, number>;
}

/** Different texts of a column that are looked at; a column of more says the same again. */
const distinctAtMost = 200_000;

const isDateColumn = (use: ColumnUse, plan: ImportPlan, traits: ReadonlyMap<string, TraitRule>): boolean => {
  if ('field' in use) return kindOf(plan.kind).fields[use.field]?.type === 'date';
  if ('trait' in use)
    return keptAs[traits.get(use.trait)?.sort ?? use.newTrait?.sort ?? 'written'] === 'date';
  return false;
};

const isNumberColumn = (
  use: ColumnUse,
  plan: ImportPlan,
  traits: ReadonlyMap<string, TraitRule>,
): boolean => {
  if ('field' in use) {
    const type = kindOf(plan.kind).fields[use.field]?.type;
    return type === 'number' || type === 'integer' || type === 'value';
  }
  if ('trait' in use)
    return keptAs[traits.get(use.trait)?.sort ?? use.newTrait?.sort ?? 'written'] === 'number';
  return false;
};

/** Whether a cell of values may hold a number, which depends on the trait that its row names, where that is known. */
function numbersOfNotes(
  plan: ImportPlan,
  traits: ReadonlyMap<string, TraitRule>,
): (index: number, cells: readonly Cell[]) => boolean {
  const columnOf = (field: string) =>
    plan.columns.findIndex((use) => use !== null && 'field' in use && use.field === field);
  const [value, trait] = [columnOf('value'), columnOf('trait')];
  return (index, cells) => {
    if (index !== value || plan.kind !== 'notes') return true;
    const rule = traits.get(cells[trait]?.text.trim() ?? plan.constants?.trait ?? '');
    return rule === undefined || keptAs[rule.sort] === 'number';
  };
}

/** Looks through a file once: order of dates, decimal mark, keys. Answers that the plan gives are not asked again. */
export async function survey(
  table: OpenedTable,
  plan: ImportPlan,
  traits: ReadonlyMap<string, TraitRule>,
  today: string,
): Promise<Survey> {
  const { key } = kindOf(plan.kind);
  const keyColumn = plan.columns.findIndex((use) => use !== null && 'field' in use && use.field === key);
  const texts = new Map<number, Set<string>>();
  const watched = plan.columns.flatMap((use, index) => {
    if (!use) return [];
    const isDate = isDateColumn(use, plan, traits);
    return isDate || isNumberColumn(use, plan, traits) ? [{ index, isDate }] : [];
  });
  for (const { index } of watched) texts.set(index, new Set());
  const isNumbers = numbersOfNotes(plan, traits);
  const keys = new Map<string, number>();
  const problems: ImportProblem[] = [];
  let rows = 0;
  for await (const { row, cells } of table.rows) {
    rows += 1;
    for (const { index } of watched) {
      const cell = isNumbers(index, cells) ? cells[index] : undefined;
      const seen = texts.get(index)!;
      if (cell && cell.date === undefined && cell.number === undefined && seen.size < distinctAtMost)
        seen.add(cell.text);
    }
    const code = keyColumn >= 0 ? cells[keyColumn]?.text.trim() : '';
    if (!code) continue;
    const first = keys.get(code);
    if (first !== undefined) {
      problems.push({
        row,
        column: table.headers[keyColumn]!,
        problem: `“${code}” stands in row ${first} already`,
        remedy: 'take out one of the two rows, or give it a code of its own',
      });
    } else keys.set(code, row);
  }
  const questions: ImportQuestion[] = [];
  const dateTexts = watched.filter(({ isDate }) => isDate);
  const dateOrder =
    plan.dateOrder ??
    orderOfDates(
      table,
      dateTexts.map(({ index }) => index),
      texts,
      today,
      questions,
      problems,
    );
  const numbers = watched.filter(({ isDate }) => !isDate).map(({ index }) => index);
  const decimal = plan.decimal ?? markOfNumbers(table, numbers, texts, isOurs(plan), questions, problems);
  if (plan.columns.some((use) => use !== null && 'year' in use) && !plan.yearDay)
    questions.push(askYearDay(table, plan));
  return {
    rows,
    conventions: { dateOrder, decimal, dateSystem: table.dateSystem },
    questions,
    problems,
    keys,
  };
}

const orderWords = { ymd: 'year, month, day', dmy: 'day, month, year', mdy: 'month, day, year' } as const;

function orderOfDates(
  table: OpenedTable,
  columns: readonly number[],
  texts: ReadonlyMap<number, Set<string>>,
  today: string,
  questions: ImportQuestion[],
  problems: ImportProblem[],
): Conventions['dateOrder'] {
  // All dates of a file are taken to be written in one way: one certain column settles the others.
  const all = columns.flatMap((index) => [...texts.get(index)!]);
  const examined = examineDates(all, { latest: today });
  const column = columns.map((index) => table.headers[index]).join(', ');
  if (examined.order === 'ask') {
    questions.push({
      ask: 'date order',
      column,
      words: `In which order are the dates written? “${examined.readings[0]!.examples[0]!.text}” can be read in more than one way.`,
      answers: examined.readings.map(({ order, examples }) => ({
        value: order,
        words: `${orderWords[order]}: ${examples.map(({ text, date }) => `${text} is ${date}`).join('; ')}`,
      })),
    });
    return undefined;
  }
  if (examined.order === 'mixed') {
    problems.push({
      row: null,
      column,
      problem: `no one order of day, month and year fits all dates: ${examined.against.map(({ order, text }) => `“${text}” is no date as ${orderWords[order]}`).join('; ')}`,
      remedy: 'write them all as 2027-05-14, or mend the ones that differ',
    });
    return undefined;
  }
  return examined.order === 'any' ? undefined : examined.order;
}

/** Whether the file was written out by us: it carries our ids. We write a decimal point and group no digits. */
const isOurs = (plan: ImportPlan): boolean =>
  plan.columns.some((use) => use !== null && 'field' in use && use.field === 'id');

function markOfNumbers(
  table: OpenedTable,
  columns: readonly number[],
  texts: ReadonlyMap<number, Set<string>>,
  ours: boolean,
  questions: ImportQuestion[],
  problems: ImportProblem[],
): Conventions['decimal'] {
  const all = columns.flatMap((index) => [...texts.get(index)!]);
  const examined = examineNumbers(all);
  const column = columns.map((index) => table.headers[index]).join(', ');
  if (examined.decimal === 'ask') {
    if (ours && !all.some((text) => text.includes(','))) return '.';
    const { text, point, comma } = examined.example;
    questions.push({
      ask: 'decimal',
      column,
      words: `What is “${text}”?`,
      answers: [
        { value: '.', words: `${point} (the point marks decimals)` },
        { value: ',', words: `${comma} (the comma marks decimals)` },
      ],
    });
    return undefined;
  }
  if (examined.decimal === 'mixed') {
    problems.push({
      row: null,
      column,
      problem: `some numbers have a decimal point (“${examined.point}”) and some a comma (“${examined.comma}”)`,
      remedy: 'write them all in one way',
    });
    return undefined;
  }
  return examined.decimal === 'either' ? undefined : examined.decimal;
}

function askYearDay(table: OpenedTable, plan: ImportPlan): ImportQuestion {
  const index = plan.columns.findIndex((use) => use !== null && 'year' in use);
  return {
    ask: 'year day',
    column: table.headers[index] ?? '',
    words: 'The file gives years alone, but a note has a day. On which day of its year shall each be dated?',
    answers: [
      { value: '06-01', words: '1 June of the year' },
      { value: '07-01', words: '1 July of the year' },
      { value: '09-01', words: '1 September of the year' },
      { value: '12-31', words: '31 December of the year' },
    ],
  };
}

/** Fields of the kind that a plan gives no column and no constant, though they are required. */
export function missingColumns(plan: ImportPlan): string[] {
  const given = new Set([
    ...plan.columns.flatMap((use) =>
      use && 'field' in use ? [use.field] : use && 'year' in use ? ['on'] : use ? ['trait', 'value'] : [],
    ),
    ...Object.keys(plan.constants ?? {}),
  ]);
  return fieldsOf(plan.kind)
    .filter(([name, field]) => field.required && !given.has(name))
    .map(([name]) => name);
}
