import { factorisePanel } from '../dense/panel-cholesky.ts';
import { addRowProducts } from '../dense/row-products.ts';
import type { SymbolicFactor } from './symbolic.ts';

/** A sparse Cholesky factor L with PAP' = LL', P the order of elimination. */
export interface CholeskyFactor {
  readonly symbolic: SymbolicFactor;
  /** Panels of L, laid out as the symbolic factor says. */
  readonly panels: Float64Array;
  /** log |A|. */
  readonly logDeterminant: number;
}

/** A pivot below this share of its diagonal entry is rounding: solutions would not have one right digit. */
const SINGULAR_BELOW = 1e-14;

/** The matrix given to `factorise` is not positive definite, as seen in the elimination of one row. */
export class NotPositiveDefiniteError extends Error {
  override readonly name = 'NotPositiveDefiniteError';
  readonly row: number;
  constructor(row: number) {
    super(`the matrix is not positive definite (seen at row ${row})`);
    this.row = row;
  }
}

/**
 * Numeric Cholesky factorisation, left-looking by supernodes (E. G. Ng and B. W. Peyton 1993, SIAM Journal on Scientific
 * Computing 14:1034-1056; Y. Chen, T. A. Davis, W. W. Hager and S. Rajamanickam 2008, ACM Transactions on Mathematical
 * Software 35:22).
 *
 * @param values values of the analysed matrix, in the places of its pattern
 * @param reuse panels of an earlier factor of the same analysis, overwritten
 * @throws NotPositiveDefiniteError also where it cannot be told from singular in double precision
 */
export function factorise(
  symbolic: SymbolicFactor,
  values: Float64Array,
  reuse?: Float64Array,
): CholeskyFactor {
  const { size, supernodes, firstColumn, rowStart, rows, panelStart, entryTarget, order } = symbolic;
  const panels = reuse ?? new Float64Array(symbolic.stored);
  panels.fill(0);
  for (let e = 0; e < entryTarget.length; e++) panels[entryTarget[e]!] = values[e]!;

  const diagonal = Float64Array.from(symbolic.diagonalTarget, (target) => panels[target]!);
  const panelRow = new Int32Array(size);
  const offsets = new Int32Array(size);
  // Panels that update the same later panel next are chained; reached[d] is the first row of d not yet used.
  const chain = new Int32Array(supernodes).fill(-1);
  const nextInChain = new Int32Array(supernodes).fill(-1);
  const reached = new Int32Array(supernodes);
  const panelOfColumn = new Int32Array(size);
  for (let s = 0; s < supernodes; s++) panelOfColumn.fill(s, firstColumn[s]!, firstColumn[s + 1]!);
  const file = (d: number): void => {
    if (reached[d]! >= rowStart[d + 1]!) return;
    const s = panelOfColumn[rows[reached[d]!]!]!;
    nextInChain[d] = chain[s]!;
    chain[s] = d;
  };
  const scratch = new TileScratch();
  let logDeterminant = 0;

  for (let s = 0; s < supernodes; s++) {
    const begin = firstColumn[s]!;
    const end = firstColumn[s + 1]!;
    const width = end - begin;
    const height = rowStart[s + 1]! - rowStart[s]!;
    const base = panelStart[s]!;
    if (chain[s]! >= 0) for (let r = 0; r < height; r++) panelRow[rows[rowStart[s]! + r]!] = r;
    for (let d = chain[s]!; d >= 0; ) {
      const following = nextInChain[d]!;
      const from = reached[d]!;
      let split = from;
      while (split < rowStart[d + 1]! && rows[split]! < end) split++;
      for (let r = from; r < rowStart[d + 1]!; r++) offsets[r - from] = base + panelRow[rows[r]!]! * width;
      subtractUpdate(symbolic, panels, d, from, split, offsets, begin, scratch);
      reached[d] = split;
      file(d);
      d = following;
    }
    const bad = factorisePanel({ data: panels, offset: base, stride: width }, height, width);
    if (bad >= 0) throw new NotPositiveDefiniteError(order[begin + bad]!);
    for (let c = 0; c < width; c++) {
      const pivot = panels[base + c * width + c]!;
      if (pivot * pivot < SINGULAR_BELOW * diagonal[begin + c]!) {
        throw new NotPositiveDefiniteError(order[begin + c]!);
      }
      logDeterminant += Math.log(pivot);
    }
    reached[s] = rowStart[s]! + width;
    file(s);
  }
  return { symbolic, panels, logDeterminant: 2 * logDeterminant };
}

/** A dense tile that grows as needed. */
class TileScratch {
  private data = new Float64Array(4096);

  zeroed(length: number): Float64Array {
    if (this.data.length < length) this.data = new Float64Array(2 * length);
    else this.data.fill(0, 0, length);
    return this.data;
  }
}

/** Takes the part of panel d that falls on a later panel off that panel: rows from …, columns from … split - 1. */
function subtractUpdate(
  symbolic: SymbolicFactor,
  panels: Float64Array,
  d: number,
  from: number,
  split: number,
  offsets: Int32Array,
  firstTargetColumn: number,
  scratch: TileScratch,
): void {
  const { firstColumn, rowStart, rows, panelStart } = symbolic;
  const width = firstColumn[d + 1]! - firstColumn[d]!;
  const m = rowStart[d + 1]! - from;
  const n = split - from;
  const source = panelStart[d]! + (from - rowStart[d]!) * width;
  if (width === 1) {
    for (let i = 0; i < m; i++) {
      const li = panels[source + i]!;
      const target = offsets[i]! - firstTargetColumn;
      const columns = i < n ? i + 1 : n;
      for (let j = 0; j < columns; j++) {
        const o = target + rows[from + j]!;
        panels[o] = panels[o]! - li * panels[source + j]!;
      }
    }
    return;
  }
  const tile = scratch.zeroed(m * n);
  const block = { data: panels, offset: source, stride: width };
  addRowProducts({ data: tile, offset: 0, stride: n }, block, block, m, n, width, -1, true);
  for (let i = 0; i < m; i++) {
    const target = offsets[i]! - firstTargetColumn;
    const columns = i < n ? i + 1 : n;
    for (let j = 0; j < columns; j++) {
      const o = target + rows[from + j]!;
      panels[o] = panels[o]! + tile[i * n + j]!;
    }
  }
}
