import type { MergedArea } from './cell-address.ts';
import type { FindingLog } from './findings.ts';
import type { RawRow } from './raw-row.ts';
import type { Cell } from './table-types.ts';

/**
 * Gives the value of cells that are merged downwards to every row that they cover. Cells merged sideways keep their value in
 * the first column alone: a remark across three columns is no value of the other two.
 */
export async function* fillMerged(
  rows: AsyncIterable<RawRow>,
  areas: readonly MergedArea[],
  findings: FindingLog,
): AsyncGenerator<RawRow> {
  const waiting = areas.filter((area) => area.bottom > area.top).sort((a, b) => a.top - b.top);
  let next = 0;
  let open: { area: MergedArea; value: Cell | undefined }[] = [];
  for await (const row of rows) {
    open = open.filter(({ area }) => area.bottom >= row.row);
    for (let area = waiting[next]; area && area.top <= row.row; area = waiting[++next]) {
      const value = area.top === row.row ? row.cells[area.left - 1] : undefined;
      if (area.bottom >= row.row) open.push({ area, value });
    }
    yield open.length === 0 ? row : filled(row, open, findings);
  }
}

function filled(
  row: RawRow,
  open: readonly { area: MergedArea; value: Cell | undefined }[],
  findings: FindingLog,
): RawRow {
  const cells = [...row.cells];
  for (const { area, value } of open) {
    const column = area.left;
    if (area.top === row.row || value === undefined || value.text === '') continue;
    while (cells.length < column) cells.push({ text: '' });
    cells[column - 1] = value;
    findings.add(
      'merged-cells',
      'Cells are merged over several rows; their value was taken for each of the rows.',
      { row: row.row, column },
    );
  }
  return { ...row, cells };
}
