import { DECIMAL } from './cells.ts';
import type { Table } from './model.ts';

/** A class column coded by its levels, or several columns coded by the combinations that occur. */
export interface Coding {
  readonly levels: readonly string[];
  /** Level of each row, an index into `levels`. */
  readonly codes: Int32Array;
}

/** What joins the levels of an interaction. */
const CROSS = '×';

/** Codes a class column in the given rows; levels ascend as numbers if all are numbers, else by code point. */
export function codeColumn(table: Table, column: string, rows: Int32Array): Coding {
  const cells = table.columns.get(column)!;
  const found = new Map<string, number>();
  const codes = new Int32Array(rows.length);
  for (let k = 0; k < rows.length; k++) {
    const level = cells[rows[k]!]!.trim();
    let code = found.get(level);
    if (code === undefined) {
      code = found.size;
      found.set(level, code);
    }
    codes[k] = code;
  }
  const unsorted = [...found.keys()];
  const levels = sortLevels(unsorted);
  const rank = new Map(levels.map((level, i) => [level, i]));
  const place = Int32Array.from(unsorted, (level) => rank.get(level)!);
  return { levels, codes: codes.map((code) => place[code]!) };
}

/** Codes the combinations of several codings that occur; the first coding's levels change slowest. */
export function crossCodings(codings: readonly Coding[]): Coding {
  let crossed = codings[0]!;
  for (const next of codings.slice(1)) crossed = crossTwo(crossed, next);
  return crossed;
}

function crossTwo(a: Coding, b: Coding): Coding {
  const width = b.levels.length;
  const present = new Set<number>();
  a.codes.forEach((code, k) => {
    present.add(code * width + b.codes[k]!);
  });
  const cells = [...present].sort((x, y) => x - y);
  const place = new Map(cells.map((cell, i) => [cell, i]));
  return {
    levels: cells.map((cell) => `${a.levels[Math.floor(cell / width)]}${CROSS}${b.levels[cell % width]}`),
    codes: a.codes.map((code, k) => place.get(code * width + b.codes[k]!)!),
  };
}

/** Levels in ascending order: as numbers if all are numbers (equal numbers by text), else by code point. */
export function sortLevels(levels: readonly string[]): string[] {
  const numbers = new Map(levels.map((level) => [level, DECIMAL.test(level) ? Number(level) : Number.NaN]));
  const allNumbers = levels.every((level) => Number.isFinite(numbers.get(level)!));
  return [...levels].sort((a, b) => {
    const difference = allNumbers ? numbers.get(a)! - numbers.get(b)! : 0;
    return difference || compareByCodePoint(a, b);
  });
}

/** Order by code point; JavaScript's own order by UTF-16 unit differs beyond the basic plane. */
function compareByCodePoint(a: string, b: string): number {
  const left = Array.from(a);
  const right = Array.from(b);
  const shorter = Math.min(left.length, right.length);
  for (let i = 0; i < shorter; i++) {
    const difference = left[i]!.codePointAt(0)! - right[i]!.codePointAt(0)!;
    if (difference !== 0) return difference;
  }
  return left.length - right.length;
}
