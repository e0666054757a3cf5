import type { Finding } from './findings.ts';

/** Where a table comes from: a file in memory (an upload), or a file on disk, which is then read in steady memory. */
export type TableSource =
  | { readonly name: string; readonly bytes: Uint8Array }
  | { readonly path: string /** Its own name, where it lies under another. */; readonly name?: string };

export type TextEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252' | 'mac-roman';
export type Separator = ',' | ';' | '\t' | '|';

/** What the person may say about a file where looking at it does not settle the matter. */
export interface OpenOptions {
  /** Name of the sheet to read; without it the first visible sheet that holds anything. */
  readonly sheet?: string;
  readonly encoding?: TextEncoding;
  readonly separator?: Separator;
  /** Row of the column names, counted from 1; two rows when names are written over two rows. */
  readonly headerRow?: number | readonly [number, number];
}

/** One cell. Typed values come from spreadsheets alone: in a text file everything is text. */
export interface Cell {
  readonly text: string;
  readonly number?: number;
  /** Calendar date, `YYYY-MM-DD`. */
  readonly date?: string;
}

export interface TableRow {
  /** Row as a spreadsheet program counts it, from 1, title rows and empty rows included. */
  readonly row: number;
  /** Text files only: line on which the row begins in a text editor; differs from `row` after cells with line breaks. */
  readonly line?: number;
  /** At least as many cells as there are headers. */
  readonly cells: readonly Cell[];
}

export interface OpenedTable {
  readonly name: string;
  readonly format: 'text' | 'xlsx';
  /** Text files only. */
  readonly encoding?: TextEncoding;
  /** Text files only. */
  readonly separator?: Separator;
  /** Spreadsheets only: day 0 of serial dates; for `readDate`. */
  readonly dateSystem?: 1900 | 1904;
  /** Names of all sheets; empty for text files. */
  readonly sheets: readonly string[];
  /** The sheet being read; spreadsheets only. */
  readonly sheet?: string;
  /** Column names, trimmed; an unnamed column that holds something is ''. */
  readonly headers: readonly string[];
  /** Row of the column names; of the lower one when they stand in two rows. */
  readonly headerRow: number;
  /** What was noticed. Grows while the rows are read; each new reading of the rows begins it anew. */
  readonly findings: readonly Finding[];
  /** The rows below the header. Can be read several times, each time from the top; a damaged file throws a TableError. */
  readonly rows: AsyncIterable<TableRow>;
}
