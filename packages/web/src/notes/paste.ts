/**
 * A block of cells as spreadsheets put it on the clipboard: tabs between cells, line ends between rows, and cells
 * that hold a tab, quote or line end in double quotes with inner quotes doubled (RFC 4180's quoting, with tabs).
 */
export function readBlock(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let at = 0;
  const endCell = (): void => {
    row.push(cell.trim());
    cell = '';
  };
  while (at < text.length) {
    const character = text[at]!;
    if (character === '"' && cell === '') {
      const quoted = readQuoted(text, at);
      cell = quoted.cell;
      at = quoted.after;
    } else if (character === '\t') {
      endCell();
      at++;
    } else if (character === '\n' || character === '\r') {
      endCell();
      rows.push(row);
      row = [];
      at += text.startsWith('\r\n', at) ? 2 : 1;
    } else {
      cell += character;
      at++;
    }
  }
  if (cell !== '' || row.length > 0) {
    endCell();
    rows.push(row);
  }
  return rows;
}

/** A cell in quotes, or a quote that is just a character where no closing one ends the cell. */
function readQuoted(text: string, start: number): { cell: string; after: number } {
  let cell = '';
  for (let at = start + 1; at < text.length; at++) {
    if (text[at] !== '"') cell += text[at];
    else if (text[at + 1] === '"') {
      cell += '"';
      at++;
    } else if (at + 1 === text.length || /[\t\r\n]/.test(text[at + 1]!)) return { cell, after: at + 1 };
    else break;
  }
  return { cell: '"', after: start + 1 };
}

export interface Pasted {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** Lays a block onto the grid from one box rightward and downward; empty cells are left out, what sticks out is counted. */
export function layBlock(
  block: readonly (readonly string[])[],
  from: { readonly row: number; readonly column: number },
  size: { readonly rows: number; readonly columns: number },
): { readonly cells: readonly Pasted[]; readonly outside: number } {
  const cells: Pasted[] = [];
  let outside = 0;
  block.forEach((texts, down) => {
    texts.forEach((text, right) => {
      if (text === '') return;
      const [row, column] = [from.row + down, from.column + right];
      if (row < size.rows && column < size.columns) cells.push({ row, column, text });
      else outside++;
    });
  });
  return { cells, outside };
}
