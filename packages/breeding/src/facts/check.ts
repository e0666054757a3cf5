import { type KindName, kindOf } from './catalogue.ts';
import { codeProblem } from './codes.ts';
import { isDate } from './dates.ts';
import type { AnyRow, AnyValue, Field } from './field.ts';
import { checkParents } from './parents.ts';
import type { FieldProblem } from './problem.ts';
import { ruleProblems } from './rules.ts';

/**
 * All that is wrong with a record by itself: missing and unknown fields, values of the wrong sort, numbers outside
 * limits, dates to come. Whether its references exist is for the store to say.
 * today: the date in the garden's time zone, `YYYY-MM-DD`.
 */
export function rowProblems(kind: KindName, row: AnyRow, today: string): FieldProblem[] {
  const declared = kindOf(kind);
  const problems: FieldProblem[] = [];
  for (const name of Object.keys(row)) {
    if (name !== 'id' && !Object.hasOwn(declared.fields, name)) {
      problems.push({
        field: name,
        problem: `a ${declared.one} has no field “${name}”`,
        remedy: `its fields are ${Object.keys(declared.fields).join(', ')}`,
      });
    }
  }
  for (const [name, field] of Object.entries(declared.fields)) {
    const value = row[name] ?? null;
    if (isEmpty(value)) {
      if (field.required)
        problems.push({
          field: name,
          problem: `${name} is missing: ${field.meaning}`,
          remedy: `give it, such as ${field.example}`,
        });
      continue;
    }
    const problem = valueOfFieldProblem(field, value, today);
    if (problem) problems.push({ field: name, ...problem });
  }
  if (declared.oneOf) {
    const given = declared.oneOf.filter((name) => !isEmpty(row[name] ?? null));
    if (given.length !== 1) {
      problems.push({
        field: given[1] ?? declared.oneOf[0]!,
        problem:
          given.length === 0
            ? `it is not said what the ${declared.one} is on`
            : `the ${declared.one} names both ${given.join(' and ')}`,
        remedy: `give one of ${declared.oneOf.join(', ')}`,
      });
    }
  }
  return problems.length > 0 ? problems : ruleProblems(kind, row);
}

const isEmpty = (value: AnyValue): boolean =>
  value === null || value === '' || (Array.isArray(value) && value.length === 0);

type Problem = { problem: string; remedy?: string } | null;

/** What is wrong with a value for this field; null if nothing is. */
export function valueOfFieldProblem(field: Field, value: AnyValue, today: string): Problem {
  switch (field.type) {
    case 'code': {
      const problem = typeof value === 'string' ? codeProblem(value) : 'a code is text';
      return problem ? { problem } : null;
    }
    case 'text':
    case 'reference':
      return typeof value === 'string' ? null : { problem: `${field.meaning}: this is text` };
    case 'number':
    case 'integer':
      return numberProblem(field, value);
    case 'date':
      return dateProblem(field, value, today);
    case 'time':
      return typeof value === 'string' && /^([01]\d|2[0-3]):[0-5]\d$/.test(value)
        ? null
        : { problem: `“${String(value)}” is not a time of day`, remedy: 'write it as 08:40' };
    case 'yes-no':
      return typeof value === 'boolean' ? null : { problem: `“${String(value)}” is neither yes nor no` };
    case 'choice':
      return field.choices.includes(value as string)
        ? null
        : {
            problem: `“${String(value)}” is not among the choices`,
            remedy: `choose ${field.choices.join(', ')}`,
          };
    case 'parents':
      return Array.isArray(value)
        ? checkParents(value as never, field.side)
        : { problem: 'parents are a list' };
    case 'list':
      return Array.isArray(value) && value.every((word) => typeof word === 'string' && !word.includes('|'))
        ? null
        : { problem: 'a list of words, separated by | in files' };
    case 'colour':
      return typeof value === 'object'
        ? null
        : { problem: `“${String(value)}” is not a colour`, remedy: 'write L a b, such as 45 5 -22' };
    case 'value':
      return null;
  }
}

function numberProblem(field: Extract<Field, { type: 'number' | 'integer' }>, value: AnyValue): Problem {
  const unit = field.unit ? ` ${field.unit}` : '';
  if (typeof value !== 'number' || !Number.isFinite(value))
    return { problem: `“${String(value)}” is not a number` };
  if (field.type === 'integer' && !Number.isInteger(value))
    return { problem: `${value} is not a whole number` };
  if (field.least !== undefined && value < field.least)
    return { problem: `${value}${unit} is too small`, remedy: `the least is ${field.least}${unit}` };
  if (field.most !== undefined && value > field.most)
    return { problem: `${value}${unit} is too large`, remedy: `the most is ${field.most}${unit}` };
  return null;
}

function dateProblem(field: Extract<Field, { type: 'date' }>, value: AnyValue, today: string): Problem {
  if (typeof value !== 'string' || !isDate(value))
    return { problem: `“${String(value)}” is not a date of the calendar`, remedy: 'write it as 2027-05-14' };
  if (!field.mayLieAhead && value > today)
    return {
      problem: `${value} lies in the future; today is ${today}`,
      remedy: 'mend the date (is the year right?)',
    };
  return null;
}
