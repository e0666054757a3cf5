import { assembleTable, firstRows } from '../assemble-table.ts';
import type { ByteSource } from '../byte-source.ts';
import { FindingLog } from '../findings.ts';
import type { RawRow } from '../raw-row.ts';
import { TableError } from '../table-error.ts';
import type { OpenedTable, OpenOptions } from '../table-types.ts';
import { Archive } from './archive.ts';
import type { CellContext } from './cell-value.ts';
import { readMergedAreas } from './merged-areas.ts';
import { readStyleKinds } from './number-formats.ts';
import { readSharedStrings } from './shared-strings.ts';
import { sheetRows } from './sheet-rows.ts';
import { readWorkbook, type SheetEntry } from './workbook.ts';

/** Opens a spreadsheet file (.xlsx, ECMA-376). Its shared texts are held in memory, its rows are read as they come. */
export async function openXlsx(source: ByteSource, options: OpenOptions): Promise<OpenedTable> {
  const found = new FindingLog();
  const { workbook, context } = await readContents(source);
  const rowsOf = (sheet: SheetEntry) => (findings: FindingLog) =>
    rowsFromTop(source, sheet, context, findings);
  const { sheet, sample } = await chosenSheet(source.name, workbook.sheets, options, (each) =>
    rowsOf(each)(new FindingLog()),
  );
  const merged = await withArchive(source, (archive) => readMergedAreas(archive, sheet.part));
  const others = workbook.sheets.filter((each) => each !== sheet && !each.hidden);
  if (options.sheet === undefined && others.length > 0) {
    const names = others.map(({ name }) => name).join(', ');
    found.add('several-sheets', `Sheet ${sheet.name} is read; there are also ${names}.`);
  }
  const facts = {
    name: source.name,
    format: 'xlsx' as const,
    dateSystem: workbook.dateSystem,
    sheets: workbook.sheets.map(({ name }) => name),
    sheet: sheet.name,
  };
  return assembleTable({ facts, rows: rowsOf(sheet), sample, merged, found }, options);
}

async function readContents(source: ByteSource) {
  return withArchive(source, async (archive) => {
    const workbook = await readWorkbook(archive);
    const context: CellContext = {
      strings: await readSharedStrings(archive, workbook.sharedStringsPart),
      kinds: await readStyleKinds(archive, workbook.stylesPart),
      dateSystem: workbook.dateSystem,
    };
    return { workbook, context };
  });
}

async function withArchive<T>(source: ByteSource, act: (archive: Archive) => Promise<T>): Promise<T> {
  const archive = await Archive.open(source);
  try {
    return await act(archive);
  } finally {
    archive.close();
  }
}

/** Each reading opens the file anew, so that several may go on side by side and none holds it open for longer. */
async function* rowsFromTop(
  source: ByteSource,
  sheet: SheetEntry,
  context: CellContext,
  findings: FindingLog,
): AsyncGenerator<RawRow> {
  const archive = await Archive.open(source);
  try {
    yield* sheetRows(archive, sheet.part, context, findings);
  } finally {
    archive.close();
  }
}

/** The sheet that was asked for, or the first visible one that holds anything; with its first rows. */
async function chosenSheet(
  name: string,
  sheets: readonly SheetEntry[],
  options: OpenOptions,
  rowsOf: (sheet: SheetEntry) => AsyncIterable<RawRow>,
): Promise<{ sheet: SheetEntry; sample: RawRow[] }> {
  const wanted = options.sheet?.trim().toLowerCase();
  const candidates = sheets.filter((sheet) =>
    wanted === undefined ? !sheet.hidden : sheet.name.toLowerCase() === wanted,
  );
  if (wanted !== undefined && candidates.length === 0) {
    const names = sheets.map((sheet) => sheet.name).join(', ');
    throw new TableError(
      'no-such-sheet',
      `${name} has no sheet ${options.sheet}.`,
      `Choose one of these: ${names}.`,
    );
  }
  for (const sheet of candidates) {
    const sample = await firstRows(rowsOf(sheet), options);
    if (sample.length > 0) return { sheet, sample };
  }
  throw new TableError(
    'file-empty',
    `${name} holds no filled cell in any visible sheet.`,
    'Check that it was saved, or name a hidden sheet.',
  );
}
