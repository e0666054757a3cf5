/** Bounds that keep a malicious or broken file from filling the memory. All far beyond a garden's records. */
export const limits = {
  /** Columns of one table. */
  columns: 2_000,
  /** Characters of one row of a text file; a quote that is never closed ends here. */
  rowCharacters: 4_000_000,
  /** Rows of one spreadsheet sheet (ECMA-376 files hold no more). */
  sheetRows: 1_048_576,
  /** Characters of one cell of a spreadsheet (common practice of spreadsheet programs). */
  sheetCellCharacters: 32_767,
  /** Files inside one spreadsheet file. */
  archiveEntries: 10_000,
  /** Bytes of one sheet when unpacked. */
  sheetBytes: 1_500_000_000,
  /** Bytes of every other part of a spreadsheet file when unpacked: these are held in memory. */
  partBytes: 200_000_000,
  /** Unpacked size over packed size, looked at beyond `ratioFreeBytes`: spreadsheets reach 50 at most. */
  ratio: 200,
  ratioFreeBytes: 20_000_000,
  /** Merged areas of one sheet. */
  mergedAreas: 100_000,
} as const;
