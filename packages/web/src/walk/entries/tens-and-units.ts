/** What two touches can say: tens first, then units; or whole numbers first, then tenths. */
export interface TwoTouchPad {
  /** What the second touch counts: 1 or 0.1. */
  readonly unit: number;
  /** The numbers that the first touch offers, each ten units from the next. */
  readonly tens: readonly number[];
}

interface Range {
  readonly least: number | null;
  readonly most: number | null;
}

/** As many large keys as a phone's width and half of its height hold. */
const mostKeys = 24;

/**
 * The pad for numbers in the shown unit. Small ranges (up to 20) are told to a tenth unless they are counts. Where
 * the range needs too many keys, those around the usual numbers are offered; other numbers are typed.
 */
export function twoTouchPad({ least, most }: Range, usual: readonly number[], whole: boolean): TwoTouchPad {
  const highest = most ?? Math.max(100, ...usual.map((number) => number * 2));
  const unit = whole || highest > 20 ? 1 : 0.1;
  const ten = unit * 10;
  const first = Math.floor(Math.max(0, least ?? 0) / ten + 1e-9);
  const last = Math.floor(highest / ten + 1e-9);
  const count = Math.min(mostKeys, last - first + 1);
  const from = last - first + 1 <= mostKeys ? first : startAround(usual, ten, first, last - mostKeys + 1);
  return { unit, tens: Array.from({ length: count }, (_, index) => exact((from + index) * ten)) };
}

/** The first of the offered tens, such that the middle of the usual numbers lies in the middle. */
function startAround(usual: readonly number[], ten: number, first: number, lastStart: number): number {
  if (usual.length === 0) return first;
  const sorted = [...usual].sort((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)]! / ten;
  return Math.min(lastStart, Math.max(first, Math.floor(middle - mostKeys / 2)));
}

/** The ten numbers that the second touch offers. */
export const unitsOf = ({ unit }: TwoTouchPad, ten: number): number[] =>
  Array.from({ length: 10 }, (_, index) => exact(ten + index * unit));

const exact = (number: number): number => Number(number.toFixed(1));

/** What stands in the box after the first touch: the ten, and an open place for what follows. */
export const openTen = (ten: number): string => `${ten}_`;
export const openWhole = (whole: number): string => `${whole} _`;

/** What is chosen so far and asks for another touch; null where the box holds a number or nothing. */
export function openIn(typed: string): { readonly sort: 'ten' | 'whole'; readonly number: number } | null {
  const open = /^(\d+)( ?)_$/.exec(typed);
  return open ? { sort: open[2] ? 'whole' : 'ten', number: Number(open[1]) } : null;
}
