import { columnCounts, eliminationTree, postorder, type UpperPattern } from './elimination-tree.ts';
import { minimumDegreeOrder } from './minimum-degree.ts';
import { findSupernodes } from './supernodes.ts';
import type { SparseSymmetric } from './symmetric.ts';

/**
 * Where everything of a sparse Cholesky factor lies; found once per pattern, used for any values.
 *
 * The factor is kept in panels, one per supernode. Panel s has the rows `rows[rowStart[s]] … rows[rowStart[s + 1] - 1]`
 * (places in the order of elimination, ascending, its own columns first) and the columns `firstColumn[s] …
 * firstColumn[s + 1] - 1`; its values are stored row by row from `panelStart[s]`. Above the diagonal of a panel's own
 * columns stands nothing of meaning.
 */
export interface SymbolicFactor {
  readonly size: number;
  /** order[k] is the row eliminated as the k-th; place[i] is when row i is eliminated. */
  readonly order: Int32Array;
  readonly place: Int32Array;
  readonly supernodes: number;
  readonly firstColumn: Int32Array;
  readonly rowStart: Int32Array;
  readonly rows: Int32Array;
  readonly panelStart: Int32Array;
  /** Where each entry of the analysed matrix goes in the panels, and where the selected inverse has its counterpart. */
  readonly entryTarget: Int32Array;
  /** Offset in the panels of the diagonal entry of each place. */
  readonly diagonalTarget: Int32Array;
  /** Numbers kept in all panels together. */
  readonly stored: number;
}

/** Panels of more numbers than this (16 GB) cannot be addressed. */
const LARGEST = 2 ** 31 - 1;

/** The factor of a matrix would fill in beyond what can be addressed. */
export class FactorTooLargeError extends Error {
  override readonly name = 'FactorTooLargeError';
  constructor(size: number) {
    super(`the factor of a matrix of ${size} rows fills in beyond ${LARGEST} numbers`);
  }
}

/**
 * Symbolic analysis of a symmetric matrix with a full diagonal: fill-reducing order, elimination tree, supernodes.
 *
 * @param order order of elimination; by minimum degree unless given
 * @throws FactorTooLargeError
 */
export function analyse(matrix: SparseSymmetric, order = minimumDegreeOrder(matrix)): SymbolicFactor {
  const { size } = matrix;
  const first = permutedPattern(matrix, order);
  const byTree = postorder(eliminationTree(first));
  const finalOrder = byTree.map((k) => order[k]!);
  const pattern = permutedPattern(matrix, finalOrder);
  const parent = eliminationTree(pattern);
  const { firstColumn, parent: above } = findSupernodes(parent, columnCounts(pattern, parent));
  const supernodes = firstColumn.length - 1;
  const { rowStart, rows } = panelRows(pattern, firstColumn, above);
  const panelStart = new Int32Array(supernodes + 1);
  let stored = 0;
  for (let s = 0; s < supernodes; s++) {
    stored += (rowStart[s + 1]! - rowStart[s]!) * (firstColumn[s + 1]! - firstColumn[s]!);
    if (stored > LARGEST) throw new FactorTooLargeError(size);
    panelStart[s + 1] = stored;
  }
  const place = inverseOrder(finalOrder);
  const layout = {
    size,
    order: finalOrder,
    place,
    supernodes,
    firstColumn,
    rowStart,
    rows,
    panelStart,
    stored,
  };
  return { ...layout, ...targets(matrix, layout) };
}

function inverseOrder(order: Int32Array): Int32Array {
  const place = new Int32Array(order.length);
  for (let k = 0; k < order.length; k++) place[order[k]!] = k;
  return place;
}

/** The strict upper triangle of the reordered matrix, by columns. */
function permutedPattern(matrix: SparseSymmetric, order: Int32Array): UpperPattern {
  const { size, columnStart, rowIndex } = matrix;
  const place = inverseOrder(order);
  const start = new Int32Array(size + 1);
  const eachPair = (visit: (row: number, column: number) => void): void => {
    for (let j = 0; j < size; j++) {
      const pj = place[j]!;
      for (let e = columnStart[j]!; e < columnStart[j + 1]!; e++) {
        const pi = place[rowIndex[e]!]!;
        if (pi !== pj) visit(Math.min(pi, pj), Math.max(pi, pj));
      }
    }
  };
  eachPair((_, column) => {
    start[column + 1] = start[column + 1]! + 1;
  });
  for (let j = 0; j < size; j++) start[j + 1] = start[j + 1]! + start[j]!;
  const fill = start.slice(0, size);
  const rows = new Int32Array(start[size]!);
  eachPair((row, column) => {
    rows[fill[column]!] = row;
    fill[column] = fill[column]! + 1;
  });
  return { size, columnStart: start, rowIndex: rows };
}

/** Rows of each panel: its columns, and below them the union of its matrix entries and its children's rows. */
function panelRows(
  pattern: UpperPattern,
  firstColumn: Int32Array,
  above: Int32Array,
): { rowStart: Int32Array; rows: Int32Array } {
  const supernodes = firstColumn.length - 1;
  const lower = transposed(pattern);
  const children: number[][] = Array.from({ length: supernodes }, () => []);
  const seen = new Int32Array(pattern.size).fill(-1);
  const perPanel: Int32Array[] = [];
  let total = 0;
  for (let s = 0; s < supernodes; s++) {
    const end = firstColumn[s + 1]!;
    const below: number[] = [];
    const take = (row: number): void => {
      if (row >= end && seen[row] !== s) {
        seen[row] = s;
        below.push(row);
      }
    };
    for (let j = firstColumn[s]!; j < end; j++) {
      for (let e = lower.columnStart[j]!; e < lower.columnStart[j + 1]!; e++) take(lower.rowIndex[e]!);
    }
    for (const child of children[s]!) for (const row of perPanel[child]!) take(row);
    const sorted = Int32Array.from(below).sort();
    perPanel.push(sorted);
    total += sorted.length + end - firstColumn[s]!;
    if (above[s]! >= 0) children[above[s]!]!.push(s);
  }
  const rowStart = new Int32Array(supernodes + 1);
  const rows = new Int32Array(total);
  let filled = 0;
  for (let s = 0; s < supernodes; s++) {
    for (let j = firstColumn[s]!; j < firstColumn[s + 1]!; j++) rows[filled++] = j;
    rows.set(perPanel[s]!, filled);
    filled += perPanel[s]!.length;
    rowStart[s + 1] = filled;
  }
  return { rowStart, rows };
}

function transposed(pattern: UpperPattern): UpperPattern {
  const { size, columnStart, rowIndex } = pattern;
  const start = new Int32Array(size + 1);
  for (const i of rowIndex) start[i + 1] = start[i + 1]! + 1;
  for (let j = 0; j < size; j++) start[j + 1] = start[j + 1]! + start[j]!;
  const fill = start.slice(0, size);
  const rows = new Int32Array(rowIndex.length);
  for (let j = 0; j < size; j++) {
    for (let e = columnStart[j]!; e < columnStart[j + 1]!; e++) {
      const i = rowIndex[e]!;
      rows[fill[i]!] = j;
      fill[i] = fill[i]! + 1;
    }
  }
  return { size, columnStart: start, rowIndex: rows };
}

/** Offsets in the panels of every entry of the matrix and of the diagonal. */
function targets(
  matrix: SparseSymmetric,
  layout: Omit<SymbolicFactor, 'entryTarget' | 'diagonalTarget'>,
): Pick<SymbolicFactor, 'entryTarget' | 'diagonalTarget'> {
  const { size, columnStart, rowIndex } = matrix;
  const { place, supernodes, firstColumn, rowStart, rows, panelStart } = layout;
  const ofColumn = new Int32Array(size);
  for (let s = 0; s < supernodes; s++) ofColumn.fill(s, firstColumn[s]!, firstColumn[s + 1]!);
  // Entries are taken panel by panel, so that the map from rows to panel rows is filled once per panel.
  const entries = rowIndex.length;
  const start = new Int32Array(supernodes + 1);
  const panelOf = new Int32Array(entries);
  const columnOf = new Int32Array(entries);
  for (let j = 0; j < size; j++) {
    for (let e = columnStart[j]!; e < columnStart[j + 1]!; e++) {
      columnOf[e] = j;
      const s = ofColumn[Math.min(place[j]!, place[rowIndex[e]!]!)]!;
      panelOf[e] = s;
      start[s + 1] = start[s + 1]! + 1;
    }
  }
  for (let s = 0; s < supernodes; s++) start[s + 1] = start[s + 1]! + start[s]!;
  const fill = start.slice(0, supernodes);
  const sorted = new Int32Array(entries);
  for (let e = 0; e < entries; e++) {
    const s = panelOf[e]!;
    sorted[fill[s]!] = e;
    fill[s] = fill[s]! + 1;
  }
  const entryTarget = new Int32Array(entries);
  const diagonalTarget = new Int32Array(size);
  const panelRow = new Int32Array(size);
  for (let s = 0; s < supernodes; s++) {
    const width = firstColumn[s + 1]! - firstColumn[s]!;
    const base = panelStart[s]!;
    for (let r = rowStart[s]!; r < rowStart[s + 1]!; r++) panelRow[rows[r]!] = r - rowStart[s]!;
    for (let k = start[s]!; k < start[s + 1]!; k++) {
      const e = sorted[k]!;
      const a = place[rowIndex[e]!]!;
      const b = place[columnOf[e]!]!;
      entryTarget[e] = base + panelRow[Math.max(a, b)]! * width + Math.min(a, b) - firstColumn[s]!;
    }
    for (let c = 0; c < width; c++) diagonalTarget[firstColumn[s]! + c] = base + c * width + c;
  }
  return { entryTarget, diagonalTarget };
}
