/** Runs of neighbouring columns of a factor that are stored and worked on as one dense panel. */
export interface Supernodes {
  /** First column of each; one more entry marks the end. */
  readonly firstColumn: Int32Array;
  /** The supernode above each in the tree, -1 at a root. */
  readonly parent: Int32Array;
}

/** Shares of stored zeros allowed when a child is joined to its parent, by the columns of the joined panel. */
const ZEROS_ALLOWED: readonly (readonly [columns: number, share: number])[] = [
  [4, 1],
  [16, 0.5],
  [48, 0.15],
  [Number.POSITIVE_INFINITY, 0.05],
];

/**
 * Supernodes of a factor in postorder: columns with the same structure, then children joined to their parent where that
 * stores few zeros (C. Ashcraft and R. Grimes 1989, ACM Transactions on Mathematical Software 15:291-309, relaxed
 * supernodes). Wide panels run at the speed of dense algebra; the shares of zeros are ours.
 *
 * @param parent elimination tree
 * @param counts entries of each column, diagonal included
 */
export function findSupernodes(parent: Int32Array, counts: Int32Array): Supernodes {
  const size = parent.length;
  const first: number[] = [];
  for (let j = 0; j < size; j++) {
    const follows = j > 0 && parent[j - 1] === j && counts[j - 1] === counts[j]! + 1;
    if (!follows) first.push(j);
  }
  const total = first.length;
  first.push(size);
  const ofColumn = new Int32Array(size);
  for (let s = 0; s < total; s++) ofColumn.fill(s, first[s]!, first[s + 1]!);

  // Joining goes from the last to the first, so that a parent has already been joined to what lies above it.
  const end = Int32Array.from({ length: total }, (_, s) => first[s + 1]!);
  const rows = Int32Array.from({ length: total }, (_, s) => counts[first[s]!]!);
  const start = Int32Array.from({ length: total }, (_, s) => first[s]!);
  const zeros = new Float64Array(total);
  const joined = new Int32Array(total).fill(-1);
  const topOf = (s: number): number => {
    let top = s;
    while (joined[top]! >= 0) top = joined[top]!;
    return top;
  };
  for (let s = total - 1; s >= 0; s--) {
    const above = parent[end[s]! - 1]!;
    if (above < 0) continue;
    const p = topOf(ofColumn[above]!);
    if (start[p] !== end[s]) continue;
    const width = end[s]! - start[s]!;
    const widthAbove = end[p]! - start[p]!;
    const rowsJoined = width + rows[p]!;
    const extra = zeros[s]! + zeros[p]! + width * (rowsJoined - rows[s]!);
    const stored = trapezoid(width + widthAbove, rowsJoined);
    const allowed = ZEROS_ALLOWED.find(([columns]) => width + widthAbove <= columns)![1];
    if (extra > allowed * stored) continue;
    joined[s] = p;
    start[p] = start[s]!;
    rows[p] = rowsJoined;
    zeros[p] = extra;
  }

  const firstColumn: number[] = [];
  for (let s = 0; s < total; s++) if (joined[s]! < 0) firstColumn.push(start[s]!);
  firstColumn.push(size);
  return { firstColumn: Int32Array.from(firstColumn), parent: supernodeParents(firstColumn, parent) };
}

function supernodeParents(firstColumn: readonly number[], parent: Int32Array): Int32Array {
  const count = firstColumn.length - 1;
  const ofColumn = new Int32Array(parent.length);
  for (let s = 0; s < count; s++) ofColumn.fill(s, firstColumn[s]!, firstColumn[s + 1]!);
  return Int32Array.from({ length: count }, (_, s) => {
    const above = parent[firstColumn[s + 1]! - 1]!;
    return above < 0 ? -1 : ofColumn[above]!;
  });
}

/** Entries of the lower trapezoid of a panel. */
function trapezoid(columns: number, rows: number): number {
  return columns * rows - (columns * (columns - 1)) / 2;
}
