import type { Design } from '../mixed/design.ts';
import { ModelError } from '../mixed/model-error.ts';
import type { SparseRows } from '../mixed/sparse-rows.ts';
import { groupOccasions, type Occasions } from './occasions.ts';
import { type SharedTerm, sharedTerms } from './shared-terms.ts';
import type { TraitTable } from './trait-table.ts';

/** Several traits laid out in one set of rows and unknowns: y = W s + e, rows by trait. */
export interface Layout {
  readonly names: readonly string[];
  readonly designs: readonly Design[];
  /** Divisor of each trait's response, so that traits of any unit weigh alike in rounding. */
  readonly scales: readonly number[];
  /** First row of each trait, and the end. */
  readonly firstRow: Int32Array;
  /** First fixed column of each trait, and the end. */
  readonly firstFixed: Int32Array;
  readonly terms: readonly SharedTerm[];
  /** For each trait the unknown, among those of all traits, of each of its own unknowns. */
  readonly places: readonly Int32Array[];
  readonly w: SparseRows;
  /** Responses, less their mean and divided by their scale. */
  readonly y: Float64Array;
  readonly rootWeights: Float64Array;
  readonly traitOfRow: Int32Array;
  readonly occasions: Occasions;
}

/**
 * Lays out the designs of several traits.
 *
 * @throws ModelError where a random term differs between traits or an occasion has no column
 */
export function layOut(traits: readonly TraitTable[], designs: readonly Design[]): Layout {
  const scales = designs.map((design) => Math.sqrt(design.leastSquares.variance));
  const firstRow = starts(designs.map((design) => design.records));
  const firstFixed = starts(designs.map((design) => design.fixed.length));
  const terms = sharedTerms(designs, firstFixed[designs.length]!);
  const places = designs.map((design, t) => placesOf(design, t, firstFixed[t]!, terms));
  const total = firstRow[designs.length]!;
  const y = new Float64Array(total);
  const rootWeights = new Float64Array(total);
  const traitOfRow = new Int32Array(total);
  designs.forEach((design, t) => {
    traitOfRow.fill(t, firstRow[t]!, firstRow[t + 1]!);
    for (let k = 0; k < design.records; k++) {
      y[firstRow[t]! + k] = design.y[k]! / scales[t]!;
      rootWeights[firstRow[t]! + k] = Math.sqrt(design.weights[k]!);
    }
  });
  return {
    names: traits.map((trait) => trait.name),
    designs,
    scales,
    firstRow,
    firstFixed,
    terms,
    places,
    w: stacked(designs, places, widthOf(terms, firstFixed[designs.length]!), total),
    y,
    rootWeights,
    traitOfRow,
    occasions: groupOccasions(traits, designs),
  };
}

function starts(lengths: readonly number[]): Int32Array {
  const start = new Int32Array(lengths.length + 1);
  lengths.forEach((length, i) => {
    start[i + 1] = start[i]! + length;
  });
  return start;
}

/** The rows of all traits one below another, their columns numbered over all unknowns. */
function stacked(
  designs: readonly Design[],
  places: readonly Int32Array[],
  width: number,
  count: number,
): SparseRows {
  const entries = designs.reduce((sum, design) => sum + design.w.column.length, 0);
  const start = new Int32Array(count + 1);
  const column = new Int32Array(entries);
  const value = new Float64Array(entries);
  let row = 0;
  let filled = 0;
  designs.forEach(({ w }, t) => {
    const place = places[t]!;
    value.set(w.value, filled);
    for (let k = 0; k < w.count; k++) {
      for (let e = w.start[k]!; e < w.start[k + 1]!; e++) column[filled++] = place[w.column[e]!]!;
      start[++row] = filled;
    }
  });
  return { count, width, start, column, value };
}

function widthOf(terms: readonly SharedTerm[], fixed: number): number {
  return terms.reduce((end, { offset, size, traits }) => Math.max(end, offset + size * traits.length), fixed);
}

function placesOf(
  design: Design,
  trait: number,
  firstFixed: number,
  terms: readonly SharedTerm[],
): Int32Array {
  const place = new Int32Array(design.w.width);
  for (let j = 0; j < design.fixed.length; j++) place[j] = firstFixed + j;
  for (const own of design.terms) {
    const term = terms.find(({ name }) => name === own.name)!;
    const a = term.traits.indexOf(trait);
    const levelOf = term.places[a]!;
    for (let i = 0; i < own.size; i++) {
      place[own.offset + i] = term.offset + levelOf[i]! * term.traits.length + a;
    }
  }
  return place;
}

/** The error of one trait's table, with the trait named. */
export function ofTrait(name: string, error: ModelError): ModelError {
  return new ModelError(`in the trait "${name}", ${error.problem}`, error.remedy, {
    ...(error.column === null ? {} : { column: error.column }),
    ...(error.row === null ? {} : { row: error.row }),
  });
}
