/** A rectangle of merged cells; rows and columns from 1, bounds included. */
export interface MergedArea {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** Letters of a column, as spreadsheet programs show them: 1 is A, 27 is AA. */
export function columnLetters(column: number): string {
  let letters = '';
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** Row and column, from 1, of an address such as B3; undefined where it is none. */
export function parseAddress(address: string): { row: number; column: number } | undefined {
  const match = /^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$/.exec(address);
  if (!match) return undefined;
  let column = 0;
  for (const letter of match[1]!) column = column * 26 + letter.charCodeAt(0) - 64;
  return { row: Number(match[2]), column };
}

/** The area of an address such as B3:D5; undefined where it is none. */
export function parseArea(address: string): MergedArea | undefined {
  const [from, to] = address.split(':').map(parseAddress);
  if (!from || !to) return undefined;
  return {
    top: Math.min(from.row, to.row),
    left: Math.min(from.column, to.column),
    bottom: Math.max(from.row, to.row),
    right: Math.max(from.column, to.column),
  };
}
