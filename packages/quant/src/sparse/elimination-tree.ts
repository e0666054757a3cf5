/** The pattern of a symmetric matrix in its order of elimination: for each column the rows above the diagonal. */
export interface UpperPattern {
  readonly size: number;
  readonly columnStart: Int32Array;
  readonly rowIndex: Int32Array;
}

/**
 * Elimination tree: the parent of column j is the first row below the diagonal in column j of the factor; roots have
 * parent -1 (J. W. H. Liu 1990, SIAM Journal on Matrix Analysis and Applications 11:134-172, algorithm 4.2 with path
 * compression).
 */
export function eliminationTree(pattern: UpperPattern): Int32Array {
  const { size, columnStart, rowIndex } = pattern;
  const parent = new Int32Array(size).fill(-1);
  const ancestor = new Int32Array(size).fill(-1);
  for (let j = 0; j < size; j++) {
    for (let e = columnStart[j]!; e < columnStart[j + 1]!; e++) {
      let i = rowIndex[e]!;
      while (i >= 0 && i < j) {
        const next = ancestor[i]!;
        ancestor[i] = j;
        if (next < 0) parent[i] = j;
        i = next;
      }
    }
  }
  return parent;
}

/** Order of a forest in which children come right before their parent, lower numbers first. */
export function postorder(parent: Int32Array): Int32Array {
  const size = parent.length;
  const firstChild = new Int32Array(size).fill(-1);
  const sibling = new Int32Array(size).fill(-1);
  const roots: number[] = [];
  for (let j = size - 1; j >= 0; j--) {
    const p = parent[j]!;
    if (p < 0) {
      roots.push(j);
    } else {
      sibling[j] = firstChild[p]!;
      firstChild[p] = j;
    }
  }
  const order = new Int32Array(size);
  const stack = new Int32Array(size);
  let filled = 0;
  for (let r = roots.length - 1; r >= 0; r--) {
    let top = 0;
    stack[0] = roots[r]!;
    while (top >= 0) {
      const node = stack[top]!;
      const child = firstChild[node]!;
      if (child >= 0) {
        firstChild[node] = sibling[child]!;
        stack[++top] = child;
      } else {
        order[filled++] = node;
        top--;
      }
    }
  }
  return order;
}

/**
 * Entries of each column of the factor, diagonal included. Row i of the factor is the subtree of the elimination tree
 * that joins the entries of row i of the matrix with i (Liu 1990, theorem 3.1), so walking those paths counts them.
 */
export function columnCounts(pattern: UpperPattern, parent: Int32Array): Int32Array {
  const { size, columnStart, rowIndex } = pattern;
  const counts = new Int32Array(size).fill(1);
  const visited = new Int32Array(size).fill(-1);
  for (let i = 0; i < size; i++) {
    visited[i] = i;
    for (let e = columnStart[i]!; e < columnStart[i + 1]!; e++) {
      for (let k = rowIndex[e]!; visited[k] !== i; k = parent[k]!) {
        visited[k] = i;
        counts[k] = counts[k]! + 1;
      }
    }
  }
  return counts;
}
