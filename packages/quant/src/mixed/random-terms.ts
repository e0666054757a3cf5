import { type SparseSymmetric, sparseIdentity } from '../sparse/symmetric.ts';
import { numbersOf, rowNumber } from './cells.ts';
import { codeColumn, crossCodings } from './levels.ts';
import type { AdditiveTerm, Table } from './model.ts';
import { ModelError } from './model-error.ts';
import type { RowEntries } from './sparse-rows.ts';
import type { ModelTerms, Term } from './terms.ts';

/**
 * A random term: effects u with covariance variance × K. An independent term is the case K = I.
 */
export interface RandomTerm {
  readonly name: string;
  /** Equations of the term, one per element of u. */
  readonly size: number;
  /** Equation that each row of the table adds its effect from, and by what factor. */
  readonly entries: RowEntries;
  /** K⁻¹. */
  readonly inverse: SparseSymmetric;
  /** log |K|. */
  readonly logDeterminant: number;
  readonly independent: boolean;
  /** Names of the effects in the order listed, the equation of each, and its own covariance per unit of variance. */
  readonly levels: readonly string[];
  readonly equations: Int32Array;
  readonly ownCovariance: Float64Array;
}

/** The random terms of a model, the additive one last. */
export function randomTerms(
  table: Table,
  terms: ModelTerms,
  additive: AdditiveTerm | undefined,
  rows: Int32Array,
): RandomTerm[] {
  const independent = terms.random.map((term) => independentTerm(table, terms, term, rows));
  return additive ? [...independent, knownCovarianceTerm(table, additive, rows)] : independent;
}

function independentTerm(table: Table, terms: ModelTerms, term: Term, rows: Int32Array): RandomTerm {
  const classes = term.columns.filter((column) => !terms.numeric.has(column));
  const numeric = term.columns.filter((column) => terms.numeric.has(column));
  if (classes.length === 0) {
    throw new ModelError(
      `the random term "${term.name}" is a number`,
      'A random term needs at least one class; take the column out of the numeric ones or make the term fixed',
      { column: term.name },
    );
  }
  const { levels, codes } = crossCodings(classes.map((column) => codeColumn(table, column, rows)));
  if (levels.length < 2) {
    throw new ModelError(
      `the random term "${term.name}" has only one level, "${levels[0]}", in the rows used`,
      'Leave it out: a variance between levels needs at least two',
      { column: term.name },
    );
  }
  let value: Float64Array | null = null;
  for (const column of numeric) {
    const x = numbersOf(table, column, rows);
    value = value ? value.map((v, k) => v * x[k]!) : x;
  }
  return {
    name: term.name,
    size: levels.length,
    entries: { at: codes, value },
    inverse: sparseIdentity(levels.length),
    logDeterminant: 0,
    independent: true,
    levels,
    equations: Int32Array.from(levels.keys()),
    ownCovariance: new Float64Array(levels.length).fill(1),
  };
}

function knownCovarianceTerm(table: Table, additive: AdditiveTerm, rows: Int32Array): RandomTerm {
  const { column, levels, inverse } = additive;
  const equations = additive.equations ?? Int32Array.from(levels.keys());
  if (equations.length !== levels.length || additive.inbreeding.length !== levels.length) {
    throw new RangeError('additive: levels, equations and inbreeding must have the same length');
  }
  const place = new Map(levels.map((level, i) => [level, i]));
  const cells = table.columns.get(column)!;
  const at = Int32Array.from(rows, (i) => {
    const level = cells[i]!.trim();
    const index = place.get(level);
    if (index !== undefined) return equations[index]!;
    throw new ModelError(
      `"${level}" is not in ${additive.listedIn ?? 'the list of levels'}`,
      'Add it there',
      {
        column,
        row: rowNumber(table, i),
      },
    );
  });
  return {
    name: 'additive',
    size: inverse.size,
    entries: { at, value: null },
    inverse,
    logDeterminant: additive.logDeterminant,
    independent: false,
    levels,
    equations,
    ownCovariance: Float64Array.from(levels, (_, i) => 1 + additive.inbreeding[i]!),
  };
}
