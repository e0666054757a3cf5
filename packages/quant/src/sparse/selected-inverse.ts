import { addRowProducts } from '../dense/row-products.ts';
import { addUpperSquare, inverseTransposed } from '../dense/triangular-inverse.ts';
import type { CholeskyFactor } from './cholesky.ts';
import type { SymbolicFactor } from './symbolic.ts';

/** Columns of the inverse that are gathered at once, so that the gathered part stays small and near. */
const CHUNK = 64;

/**
 * The entries of A⁻¹ that lie on the pattern of the Cholesky factor of A, laid out as the panels of the factor are.
 *
 * Takahashi's equations (K. Takahashi, J. Fagan and M.-S. Chen 1973; A. M. Erisman and W. F. Tinney 1975, Communications
 * of the ACM 18:177-179) by panels, from the last to the first: with R the rows below a panel, Y = L_R L₁₁⁻¹ and Z_RR
 * known from later panels, Z_R1 = -Z_RR Y and Z₁₁ = L₁₁⁻ᵀL₁₁⁻¹ + Y'Z_RR Y.
 *
 * @param reuse panels of an earlier selected inverse of the same analysis, overwritten
 */
export function selectedInverse(factor: CholeskyFactor, reuse?: Float64Array): Float64Array {
  const { symbolic } = factor;
  const inverse = reuse ?? new Float64Array(symbolic.stored);
  const work = new Workspace(symbolic);
  for (let s = symbolic.supernodes - 1; s >= 0; s--) {
    const width = symbolic.firstColumn[s + 1]! - symbolic.firstColumn[s]!;
    if (width === 1) invertColumn(factor, inverse, s, work);
    else invertPanel(factor, inverse, s, work);
  }
  return inverse;
}

class Workspace {
  readonly panelOfColumn: Int32Array;
  readonly rowPlace: Int32Array;
  private readonly pool: Float64Array[] = [];

  constructor(symbolic: SymbolicFactor) {
    this.panelOfColumn = new Int32Array(symbolic.size);
    this.rowPlace = new Int32Array(symbolic.size);
    for (let s = 0; s < symbolic.supernodes; s++) {
      this.panelOfColumn.fill(s, symbolic.firstColumn[s]!, symbolic.firstColumn[s + 1]!);
    }
  }

  /** The numbered buffer with room for `length` numbers, those zero. */
  zeroed(which: number, length: number): Float64Array {
    const held = this.pool[which];
    if (held && held.length >= length) return held.fill(0, 0, length);
    const fresh = new Float64Array(Math.max(1024, Math.ceil(1.5 * length)));
    this.pool[which] = fresh;
    return fresh;
  }
}

/** Part of the rows below a panel: those from `from` on, of which from … to - 1 are columns of the panel `above`. */
interface Segment {
  readonly above: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The next segment of the `count` rows that start at `first`; leaves in `rowPlace` where each of its rows from `from` on
 * stands in the panel above.
 */
function nextSegment(
  symbolic: SymbolicFactor,
  first: number,
  count: number,
  from: number,
  work: Workspace,
): Segment {
  const { rows, rowStart, firstColumn } = symbolic;
  const above = work.panelOfColumn[rows[first + from]!]!;
  const begin = firstColumn[above]!;
  const end = firstColumn[above + 1]!;
  const { rowPlace } = work;
  let to = from;
  while (to < count && rows[first + to]! < end) {
    rowPlace[to] = rows[first + to]! - begin;
    to++;
  }
  const base = rowStart[above]!;
  let at = base + end - begin;
  for (let a = to; a < count; a++) {
    const wanted = rows[first + a]!;
    // Steps that double, then halve: both lists ascend, and the longer one is often far longer.
    let step = 1;
    while (at + step < rowStart[above + 1]! && rows[at + step]! <= wanted) {
      at += step;
      step *= 2;
    }
    while (rows[at]! !== wanted) {
      while (at + step >= rowStart[above + 1]! || rows[at + step]! > wanted) step >>= 1;
      at += step;
    }
    rowPlace[a] = at - base;
  }
  return { above, from, to };
}

function invertColumn(factor: CholeskyFactor, inverse: Float64Array, s: number, work: Workspace): void {
  const { symbolic, panels } = factor;
  const { firstColumn, rowStart, rows, panelStart } = symbolic;
  const first = rowStart[s]! + 1;
  const count = rowStart[s + 1]! - first;
  const base = panelStart[s]!;
  const pivot = panels[base]!;
  const y = work.zeroed(0, count);
  const t = work.zeroed(1, count);
  for (let a = 0; a < count; a++) y[a] = panels[base + 1 + a]! / pivot;
  for (let from = 0; from < count; ) {
    const { above, to } = nextSegment(symbolic, first, count, from, work);
    const begin = firstColumn[above]!;
    const width = firstColumn[above + 1]! - begin;
    for (let a = from; a < count; a++) {
      const row = panelStart[above]! + work.rowPlace[a]! * width - begin;
      const ya = y[a]!;
      const end = Math.min(a, to);
      let sum = 0;
      for (let b = from; b < end; b++) {
        const z = inverse[row + rows[first + b]!]!;
        sum += z * y[b]!;
        t[b] = t[b]! + z * ya;
      }
      if (a < to) sum += inverse[row + rows[first + a]!]! * ya;
      t[a] = t[a]! + sum;
    }
    from = to;
  }
  let diagonal = 1 / (pivot * pivot);
  for (let a = 0; a < count; a++) {
    inverse[base + 1 + a] = -t[a]!;
    diagonal += y[a]! * t[a]!;
  }
  inverse[base] = diagonal;
}

function invertPanel(factor: CholeskyFactor, inverse: Float64Array, s: number, work: Workspace): void {
  const { symbolic, panels } = factor;
  const { firstColumn, rowStart, panelStart } = symbolic;
  const width = firstColumn[s + 1]! - firstColumn[s]!;
  const first = rowStart[s]! + width;
  const count = rowStart[s + 1]! - first;
  const base = panelStart[s]!;
  const below = base + width * width;
  const u = { data: work.zeroed(0, width * width), offset: 0, stride: width };
  inverseTransposed({ data: panels, offset: base, stride: width }, width, u);
  const corner = { data: inverse, offset: base, stride: width };
  inverse.fill(0, base, below);
  addUpperSquare(u, width, corner);
  if (count === 0) return;

  // N = -Y' and T = Y'Z_RR, both width × count.
  const n = work.zeroed(1, width * count);
  const t = work.zeroed(2, width * count);
  const nBlock = (offset: number) => ({ data: n, offset, stride: count });
  const tBlock = (offset: number) => ({ data: t, offset, stride: count });
  addRowProducts(nBlock(0), u, { data: panels, offset: below, stride: width }, width, count, width, -1);
  for (let from = 0; from < count; ) {
    const { above, to } = nextSegment(symbolic, first, count, from, work);
    for (let b0 = from; b0 < to; b0 += CHUNK) {
      const b1 = Math.min(to, b0 + CHUNK);
      const g = gather(symbolic, inverse, above, first, b0, b1, count, work);
      const columns = b1 - b0;
      const down = { data: g.down, offset: 0, stride: columns };
      addRowProducts(tBlock(b0), nBlock(b0), down, width, count - b0, columns, -1);
      if (b1 === count) continue;
      const across = { data: g.across, offset: 0, stride: count - b1 };
      addRowProducts(tBlock(b0), nBlock(b1), across, width, columns, count - b1, -1);
    }
    from = to;
  }
  addRowProducts(corner, nBlock(0), tBlock(0), width, width, count, -1, true);
  for (let a = 0; a < count; a++) {
    for (let c = 0; c < width; c++) inverse[below + a * width + c] = -t[c * count + a]!;
  }
}

/**
 * Columns b0 … b1 - 1 of Z_RR, rows from b0 on: `down` row by row with the square at the top filled on both sides, and
 * `across`, the rows from b1 on turned over.
 */
function gather(
  symbolic: SymbolicFactor,
  inverse: Float64Array,
  above: number,
  first: number,
  b0: number,
  b1: number,
  count: number,
  work: Workspace,
): { down: Float64Array; across: Float64Array } {
  const { firstColumn, panelStart, rows } = symbolic;
  const begin = firstColumn[above]!;
  const width = firstColumn[above + 1]! - begin;
  const columns = b1 - b0;
  const after = count - b1;
  const down = work.zeroed(3, (count - b0) * columns);
  const across = work.zeroed(4, after * columns);
  for (let a = b0; a < count; a++) {
    const row = panelStart[above]! + work.rowPlace[a]! * width - begin;
    const target = (a - b0) * columns;
    const end = a < b1 ? a - b0 + 1 : columns;
    for (let b = 0; b < end; b++) {
      const z = inverse[row + rows[first + b0 + b]!]!;
      down[target + b] = z;
      if (a < b1) down[b * columns + a - b0] = z;
      else across[b * after + a - b1] = z;
    }
  }
  return { down, across };
}
