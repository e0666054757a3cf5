import type { OpenedTable } from '../tables/index.ts';
import type { ImportPlan, ImportProblem } from './plan.ts';

/** What is wrong with a file before its cells are read: cells beyond the headers, two columns under one header. */
export function shapeProblems(table: OpenedTable, plan: ImportPlan): ImportProblem[] {
  const beyond = table.findings
    .filter(({ code }) => code === 'cell-beyond-header')
    .flatMap(({ places }) => places);
  return [
    ...beyond.map(({ row }) => ({
      row,
      column: null,
      problem: 'there are more cells in this row than headers, so its values may stand under the wrong ones',
      remedy: 'put a value that holds a comma in quotes, or give the column a header',
    })),
    ...headersTwice(table.headers, plan.columns).map((header) => ({
      row: table.headerRow,
      column: header,
      problem: `two columns are headed “${header}” and both are to be stored`,
      remedy: 'leave one of them out, or name them apart',
    })),
  ];
}

function headersTwice(headers: readonly string[], columns: readonly unknown[]): string[] {
  const used = headers.filter((header, index) => header !== '' && columns[index]);
  return [...new Set(used.filter((header, index) => used.indexOf(header) !== index))];
}
