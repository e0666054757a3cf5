import type { SymbolicFactor } from './symbolic.ts';

/**
 * Looks up where the entry of any pair of rows stands in the panels of a factor or of a selected inverse.
 *
 * @returns a function of two rows of the analysed matrix: the offset in the panels, -1 where the pattern has no such entry
 */
export function entryOffsets(symbolic: SymbolicFactor): (i: number, j: number) => number {
  const { size, place, supernodes, firstColumn, rowStart, rows, panelStart } = symbolic;
  const panelOf = new Int32Array(size);
  for (let s = 0; s < supernodes; s++) panelOf.fill(s, firstColumn[s]!, firstColumn[s + 1]!);
  return (i, j) => {
    const row = Math.max(place[i]!, place[j]!);
    const column = Math.min(place[i]!, place[j]!);
    const s = panelOf[column]!;
    const begin = firstColumn[s]!;
    const width = firstColumn[s + 1]! - begin;
    let low = rowStart[s]!;
    if (row < begin + width) return panelStart[s]! + (row - begin) * width + column - begin;
    let high = rowStart[s + 1]! - 1;
    low += width;
    while (low <= high) {
      const middle = (low + high) >> 1;
      const found = rows[middle]!;
      if (found === row) return panelStart[s]! + (middle - rowStart[s]!) * width + column - begin;
      if (found < row) low = middle + 1;
      else high = middle - 1;
    }
    return -1;
  };
}
