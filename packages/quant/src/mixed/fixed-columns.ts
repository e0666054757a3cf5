import { numbersOf } from './cells.ts';
import { type Coding, codeColumn, crossCodings } from './levels.ts';
import type { Table } from './model.ts';
import { ModelError } from './model-error.ts';
import type { RowEntries } from './sparse-rows.ts';
import type { ModelTerms, Term } from './terms.ts';

/**
 * One column of X as it is named in results. Inside, numbers are shifted and scaled: the entry is (x - centre) / scale,
 * which changes log|X'V⁻¹X| by twice the log of the scale and, since the intercept is always there, nothing else.
 */
export interface FixedColumn {
  readonly term: string;
  readonly level: string | null;
  readonly centre: number;
  readonly scale: number;
}

/** The columns of X, the intercept first, and what each term puts into each row. */
export interface FixedPart {
  readonly columns: readonly FixedColumn[];
  readonly entries: readonly RowEntries[];
  /** Combinations of levels that no row has, as they would be named. */
  readonly absent: readonly FixedColumn[];
  /** Levels that others are measured against. */
  readonly bases: readonly FixedColumn[];
}

/** Combinations are listed as absent up to this many in all. */
const MOST_CELLS = 100_000;

/**
 * Lays out the columns of the fixed terms.
 *
 * A class is coded against its first level where the term without that class is in the model too (the intercept stands
 * for the empty term), and by all its levels otherwise, so that a term always spans what its words say (J. M. Chambers
 * and T. J. Hastie 1992, Statistical Models in S, section 2.4.1). Where all classes of a term are coded by all levels the
 * first combination is the base.
 */
export function fixedColumns(table: Table, terms: ModelTerms, rows: Int32Array): FixedPart {
  const columns: FixedColumn[] = [{ term: 'intercept', level: null, centre: 0, scale: 1 }];
  const entries: RowEntries[] = [{ at: new Int32Array(rows.length), value: null }];
  const absent: FixedColumn[] = [];
  const bases: FixedColumn[] = [];
  const inModel = new Set(['', ...terms.fixed.map((term) => keyOf(term.columns))]);
  for (const term of terms.fixed) {
    const numeric = term.columns.filter((column) => terms.numeric.has(column));
    const classes = term.columns.filter((column) => !terms.numeric.has(column));
    const product = numeric.length > 0 ? productOf(table, numeric, rows) : null;
    const scaling = product ? scalingOf(product, classes.length === 0) : { centre: 0, scale: 1 };
    const value = product ? product.map((x) => (x - scaling.centre) / scaling.scale) : null;
    if (classes.length === 0) {
      entries.push({ at: new Int32Array(rows.length).fill(columns.length), value });
      columns.push({ term: term.name, level: null, ...scaling });
      continue;
    }
    const against = classes.map((column) =>
      inModel.has(keyOf(term.columns.filter((other) => other !== column))),
    );
    const codings = classes.map((column) => codeColumn(table, column, rows));
    const cells = codedCells(term, codings, against, numeric.length === 0);
    const offset = columns.length;
    entries.push({ at: cells.at.map((cell) => (cell < 0 ? -1 : offset + cell)), value });
    for (const level of cells.levels) columns.push({ term: term.name, level, ...scaling });
    for (const level of cells.absent) absent.push({ term: term.name, level, centre: 0, scale: 1 });
    for (const level of cells.bases) bases.push({ term: term.name, level, centre: 0, scale: 1 });
  }
  return { columns, entries, absent, bases };
}

interface Cells {
  readonly levels: readonly string[];
  readonly at: Int32Array;
  readonly absent: readonly string[];
  readonly bases: readonly string[];
}

/** Combinations of levels that get a column, those at a base level left out. */
function codedCells(
  term: Term,
  codings: readonly Coding[],
  against: readonly boolean[],
  alone: boolean,
): Cells {
  const crossed = crossCodings(codings);
  if (crossed.levels.length < 2) {
    throw new ModelError(
      `"${term.name}" has only one level, "${crossed.levels[0]}", in the rows used`,
      'Leave it out: there is nothing to compare',
      { column: term.name },
    );
  }
  const count = crossed.levels.length;
  const kept = new Uint8Array(count).fill(1);
  crossed.codes.forEach((code, k) => {
    if (codings.some((coding, c) => against[c] && coding.codes[k] === 0)) kept[code] = 0;
  });
  if (alone && !against.includes(true)) kept[0] = 0;
  const place = new Int32Array(count).fill(-1);
  const levels: string[] = [];
  for (let code = 0; code < count; code++) {
    if (!kept[code]) continue;
    place[code] = levels.length;
    levels.push(crossed.levels[code]!);
  }
  return {
    levels,
    at: crossed.codes.map((code) => place[code]!),
    absent: absentCells(codings, against, crossed),
    bases: crossed.levels.filter((_, code) => !kept[code]),
  };
}

function absentCells(codings: readonly Coding[], against: readonly boolean[], crossed: Coding): string[] {
  const possible = codings.reduce((cells, coding) => cells * coding.levels.length, 1);
  if (possible === crossed.levels.length || possible > MOST_CELLS) return [];
  const present = new Set(crossed.levels);
  let names = codings[0]!.levels.slice(against[0] ? 1 : 0);
  codings.slice(1).forEach((coding, c) => {
    const next = coding.levels.slice(against[c + 1] ? 1 : 0);
    names = names.flatMap((name) => next.map((level) => `${name}×${level}`));
  });
  return names.filter((name) => !present.has(name));
}

function keyOf(columns: readonly string[]): string {
  return [...columns].sort().join('*');
}

function productOf(table: Table, columns: readonly string[], rows: Int32Array): Float64Array {
  const product = numbersOf(table, columns[0]!, rows);
  for (const column of columns.slice(1)) {
    const factor = numbersOf(table, column, rows);
    for (let k = 0; k < product.length; k++) product[k] = product[k]! * factor[k]!;
  }
  return product;
}

/** Mean and spread of a covariate; the mean is taken off only where the column stands alone beside the intercept. */
function scalingOf(x: Float64Array, shift: boolean): { centre: number; scale: number } {
  let sum = 0;
  for (const value of x) sum += value;
  const centre = shift ? sum / x.length : 0;
  let squares = 0;
  for (const value of x) squares += (value - centre) ** 2;
  const spread = Math.sqrt(squares / x.length);
  // A covariate that does not vary is left as it is; it is then found to be aliased with the intercept.
  const varies = spread > 1e-12 * Math.abs(centre);
  return varies ? { centre, scale: spread } : { centre: 0, scale: 1 };
}
