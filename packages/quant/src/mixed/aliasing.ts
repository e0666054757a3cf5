import { ModelError } from './model-error.ts';
import type { RowEntries } from './sparse-rows.ts';

/** Fixed columns beyond this many are refused: each is a separate question put to the rows. */
const MOST_COLUMNS = 5000;

/** A pivot that falls below this share of its column's own sum of squares is taken for a rounded zero. */
const ALIASED_BELOW = 1e-10;

/** X'RX of the columns that are kept, factorised. */
export interface FixedFactor {
  /** Indices of the columns that do not depend on those before them. */
  readonly kept: readonly number[];
  /** Lower triangular factor of X'RX over the kept columns, row by row. */
  readonly lower: Float64Array;
}

/**
 * Finds the columns of X that depend on earlier ones, by a Cholesky factorisation of X'RX in the order of the columns,
 * which passes over a column whose pivot vanishes (M. J. R. Healy 1968, Algorithm AS 6, Applied Statistics 17:195-197).
 *
 * @param width number of columns
 * @param entries what each term puts into each row
 */
export function findAliases(
  width: number,
  entries: readonly RowEntries[],
  weights: Float64Array,
): FixedFactor {
  if (width > MOST_COLUMNS) {
    throw new ModelError(
      `the fixed terms have ${width} columns, more than the ${MOST_COLUMNS} that can be compared at once`,
      'Make the term with most levels random',
    );
  }
  const gram = gramMatrix(width, entries, weights);
  const kept: number[] = [];
  // Row r of `lower` is the kept column kept[r]; all candidates share the rows found so far.
  const lower = new Float64Array(width * width);
  for (let j = 0; j < width; j++) {
    const row = kept.length * width;
    const own = gram[j * width + j]!;
    let pivot = own;
    for (let r = 0; r < kept.length; r++) {
      let sum = gram[j * width + kept[r]!]!;
      for (let k = 0; k < r; k++) sum -= lower[row + k]! * lower[r * width + k]!;
      const entry = sum / lower[r * width + r]!;
      lower[row + r] = entry;
      pivot -= entry * entry;
    }
    if (pivot > ALIASED_BELOW * own) {
      lower[row + kept.length] = Math.sqrt(pivot);
      kept.push(j);
    }
  }
  const size = kept.length;
  const packed = new Float64Array(size * size);
  for (let r = 0; r < size; r++) packed.set(lower.subarray(r * width, r * width + r + 1), r * size);
  return { kept, lower: packed };
}

/** Lower triangle of X'RX, row by row. */
function gramMatrix(width: number, entries: readonly RowEntries[], weights: Float64Array): Float64Array {
  const gram = new Float64Array(width * width);
  for (let k = 0; k < weights.length; k++) {
    for (let a = 0; a < entries.length; a++) {
      const i = entries[a]!.at[k]!;
      if (i < 0) continue;
      const wx = weights[k]! * (entries[a]!.value?.[k] ?? 1);
      for (let b = 0; b <= a; b++) {
        const j = entries[b]!.at[k]!;
        if (j < 0) continue;
        const place = i * width + j;
        gram[place] = gram[place]! + wx * (entries[b]!.value?.[k] ?? 1);
      }
    }
  }
  return gram;
}
