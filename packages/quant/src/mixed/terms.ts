import type { Model, Table } from './model.ts';
import { ModelError } from './model-error.ts';

/** A term of the model: the columns whose interaction it is, in the order written. */
export interface Term {
  readonly name: string;
  readonly columns: readonly string[];
}

/** The words of a model, read and checked against the columns of the table. */
export interface ModelTerms {
  readonly fixed: readonly Term[];
  readonly random: readonly Term[];
  readonly numeric: ReadonlySet<string>;
  /** Every column that the model uses. */
  readonly used: readonly string[];
}

const RESERVED = ['intercept', 'residual', 'additive'];

/**
 * Reads the terms of a model.
 *
 * @throws ModelError for an unknown column, a term named twice, a term that is both fixed and random, a response that
 * explains itself, or a random term with a name that results use for something else
 */
export function readTerms(table: Table, model: Model): ModelTerms {
  const numeric = new Set(model.numeric ?? []);
  const fixed = model.fixed.map(readTerm);
  const random = model.random.map(readTerm);
  const used = new Set([model.response]);
  for (const term of [...fixed, ...random]) for (const column of term.columns) used.add(column);
  if (model.weights !== undefined) used.add(model.weights);
  if (model.additive) used.add(model.additive.column);
  for (const column of [...used, ...numeric]) requireColumn(table, column);

  const seen = new Map<string, string>();
  for (const [kind, terms] of [
    ['fixed', fixed],
    ['random', random],
  ] as const) {
    for (const term of terms) {
      if (term.columns.includes(model.response)) {
        throw new ModelError(
          `the response "${model.response}" is also a ${kind} term`,
          'Leave it out of the terms',
        );
      }
      const key = [...term.columns].sort().join('*');
      const before = seen.get(key);
      if (before !== undefined) {
        const twice = before === kind ? 'given twice' : 'both fixed and random';
        throw new ModelError(`the term "${term.name}" is ${twice}`, 'Keep one of the two');
      }
      seen.set(key, kind);
      if (kind === 'random' && RESERVED.includes(term.name)) {
        throw new ModelError(
          `a random term cannot be called "${term.name}", which results use for something else`,
          'Rename the column',
          { column: term.name },
        );
      }
    }
  }
  return { fixed, random, numeric, used: [...used] };
}

function readTerm(text: string): Term {
  const columns = text.split('*').map((part) => part.trim());
  if (columns.some((column) => column === '')) {
    throw new ModelError(
      `the term "${text}" lacks a column name`,
      'Write a column, or an interaction as a*b',
    );
  }
  const repeated = columns.find((column, i) => columns.indexOf(column) !== i);
  if (repeated !== undefined) {
    throw new ModelError(`the term "${text}" names "${repeated}" twice`, 'Name each column once');
  }
  return { name: columns.join('*'), columns };
}

function requireColumn(table: Table, column: string): void {
  if (table.columns.has(column)) return;
  const names = [...table.columns.keys()];
  const alike = names.find((name) => name.toLowerCase().trim() === column.toLowerCase().trim());
  const remedy = alike
    ? `Did you mean "${alike}"`
    : `The table has ${names.map((name) => `"${name}"`).join(', ') || 'no columns'}`;
  throw new ModelError(`there is no column "${column}"`, remedy, { column });
}
