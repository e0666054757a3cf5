import { type FixedFactor, findAliases } from './aliasing.ts';
import { completeRows, numbersOf, weightsOf } from './cells.ts';
import { type FixedColumn, fixedColumns } from './fixed-columns.ts';
import type { Model, Table } from './model.ts';
import { ModelError } from './model-error.ts';
import { type RandomTerm, randomTerms } from './random-terms.ts';
import {
  type RowEntries,
  residualsOf,
  type SparseRows,
  sparseRows,
  transposedProduct,
} from './sparse-rows.ts';
import { readTerms } from './terms.ts';

/** A random term with the number of its first equation. */
export interface PlacedTerm extends RandomTerm {
  readonly offset: number;
}

/** A model laid out in numbers: y = W b + e with W = [X Z₁ Z₂ …], var(e) = residual variance / weights. */
export interface Design {
  readonly records: number;
  readonly omitted: number;
  /** Index in the table of each row used, and the rows of the table in all. */
  readonly rows: Int32Array;
  readonly tableRows: number;
  /** Response less its mean; the mean goes back to the intercept. */
  readonly y: Float64Array;
  readonly mean: number;
  readonly weights: Float64Array;
  readonly w: SparseRows;
  /** Columns of X that are kept, the intercept first, and those aliased or without rows. */
  readonly fixed: readonly FixedColumn[];
  readonly aliased: readonly FixedColumn[];
  /** Levels that others are measured against. */
  readonly bases: readonly FixedColumn[];
  readonly terms: readonly PlacedTerm[];
  /** y less its least-squares fit on X alone, and the sum of its weighted squares over n - p. */
  readonly leastSquares: { readonly residuals: Float64Array; readonly variance: number };
  readonly readAsMissing: readonly string[];
}

/**
 * Reads a table and a model into numbers.
 *
 * @throws ModelError for everything in the table or the model that keeps it from being fitted
 */
export function readDesign(table: Table, model: Model): Design {
  const terms = readTerms(table, model);
  const { rows, omitted, readAsMissing } = completeRows(table, terms.used);
  const records = rows.length;
  const response = numbersOf(table, model.response, rows);
  const weights = weightsOf(table, model.weights, rows);
  const mean = response.reduce((sum, value) => sum + value, 0) / records;
  const y = response.map((value) => value - mean);
  if (response.every((value) => value === response[0])) {
    throw new ModelError(
      `"${model.response}" has the same value, ${response[0]}, in all ${records} rows used`,
      'There is no difference to explain; look whether the right column was named',
      { column: model.response },
    );
  }
  const part = fixedColumns(table, terms, rows);
  const random = randomTerms(table, terms, model.additive, rows);
  const factor = findAliases(part.columns.length, part.entries, weights);
  const p = factor.kept.length;
  if (records - p < 1) {
    throw new ModelError(
      `the fixed terms need ${p} columns and there are only ${records} complete rows`,
      'Take more rows, or fewer or coarser fixed terms',
    );
  }
  const fixedEntries = renumber(part.entries, part.columns.length, factor.kept);
  const x = sparseRows(records, p, fixedEntries);
  const leastSquares = fitFixed(x, factor, weights, y);
  const total = weights.reduce((sum, weight, k) => sum + weight * y[k]! ** 2, 0);
  if (leastSquares.variance * (records - p) <= 1e-20 * total) {
    throw new ModelError(
      `the fixed terms explain "${model.response}" without remainder`,
      'Nothing is left to estimate a variance from; leave out a fixed term that names single rows',
      { column: model.response },
    );
  }
  return {
    records,
    omitted,
    rows,
    tableRows: records + omitted,
    y,
    mean,
    weights,
    ...place(records, p, fixedEntries, random),
    fixed: factor.kept.map((j) => part.columns[j]!),
    aliased: [...part.columns.filter((_, j) => !factor.kept.includes(j)), ...part.absent],
    bases: part.bases,
    leastSquares,
    readAsMissing,
  };
}

/** The same design without some random terms, whose variances are zero. */
export function withoutTerms(design: Design, dropped: ReadonlySet<string>): Design {
  const p = design.fixed.length;
  const left = design.terms.filter((term) => !dropped.has(term.name));
  const x = fixedOnly(design.w, p);
  return { ...design, ...placeBeside(x, p, left) };
}

function place(
  records: number,
  p: number,
  fixedEntries: readonly RowEntries[],
  random: readonly RandomTerm[],
): { w: SparseRows; terms: PlacedTerm[] } {
  return placeBeside(sparseRows(records, p, fixedEntries), p, random);
}

/** W = [X Z₁ Z₂ …] and the first equation of each term. */
function placeBeside(
  x: SparseRows,
  p: number,
  random: readonly RandomTerm[],
): { w: SparseRows; terms: PlacedTerm[] } {
  let width = p;
  const terms = random.map((term) => {
    const offset = width;
    width += term.size;
    return { ...term, offset };
  });
  const z = sparseRows(
    x.count,
    width,
    terms.map((term) => ({
      at: term.entries.at.map((i) => (i < 0 ? -1 : term.offset + i)),
      value: term.entries.value,
    })),
  );
  return { w: besideEachOther(x, z), terms };
}

function besideEachOther(x: SparseRows, z: SparseRows): SparseRows {
  const start = x.start.map((s, k) => s + z.start[k]!);
  const column = new Int32Array(start[x.count]!);
  const value = new Float64Array(start[x.count]!);
  for (let k = 0; k < x.count; k++) {
    const split = start[k]! + x.start[k + 1]! - x.start[k]!;
    column.set(x.column.subarray(x.start[k], x.start[k + 1]), start[k]);
    value.set(x.value.subarray(x.start[k], x.start[k + 1]), start[k]);
    column.set(z.column.subarray(z.start[k], z.start[k + 1]), split);
    value.set(z.value.subarray(z.start[k], z.start[k + 1]), split);
  }
  return { count: x.count, width: z.width, start, column, value };
}

function fixedOnly(w: SparseRows, p: number): SparseRows {
  const start = new Int32Array(w.count + 1);
  const column = w.column.filter((c) => c < p);
  const value = w.value.filter((_, e) => w.column[e]! < p);
  for (let k = 0; k < w.count; k++) {
    let entries = 0;
    for (let e = w.start[k]!; e < w.start[k + 1]!; e++) if (w.column[e]! < p) entries++;
    start[k + 1] = start[k]! + entries;
  }
  return { count: w.count, width: p, start, column, value };
}

function renumber(entries: readonly RowEntries[], width: number, kept: readonly number[]): RowEntries[] {
  const place = new Int32Array(width).fill(-1);
  kept.forEach((j, k) => {
    place[j] = k;
  });
  return entries.map(({ at, value }) => ({ at: at.map((j) => (j < 0 ? -1 : place[j]!)), value }));
}

/** Weighted least squares on X alone, from the factor that the search for aliases made. */
function fitFixed(
  x: SparseRows,
  factor: FixedFactor,
  weights: Float64Array,
  y: Float64Array,
): Design['leastSquares'] {
  const p = factor.kept.length;
  const { lower } = factor;
  const b = transposedProduct(x, weights, y);
  for (let i = 0; i < p; i++) {
    for (let k = 0; k < i; k++) b[i] = b[i]! - lower[i * p + k]! * b[k]!;
    b[i] = b[i]! / lower[i * p + i]!;
  }
  for (let i = p - 1; i >= 0; i--) {
    for (let k = i + 1; k < p; k++) b[i] = b[i]! - lower[k * p + i]! * b[k]!;
    b[i] = b[i]! / lower[i * p + i]!;
  }
  const residuals = residualsOf(x, y, b);
  let squares = 0;
  for (let k = 0; k < residuals.length; k++) squares += weights[k]! * residuals[k]! ** 2;
  return { residuals, variance: squares / (x.count - p) };
}
