export { isBlank } from './blank.ts';
export { columnLetters } from './cell-address.ts';
export type { DateOrder } from './date-shape.ts';
export { type DateExample, type ExaminedDates, examineDates } from './examine-dates.ts';
export { type ExaminedNumbers, examineNumbers } from './examine-numbers.ts';
export type { Finding, FindingCode, Place } from './findings.ts';
export type { DecimalMark } from './number-shape.ts';
export { openTable } from './open-table.ts';
export { type DateReadingOptions, readDate } from './read-date.ts';
export { type NumberReading, readNumber } from './read-number.ts';
export { readYesNo } from './read-yes-no.ts';
export { isMissingMark, type Problem, type Reading } from './reading.ts';
export { splitHeader } from './split-header.ts';
export { TableError, type TableErrorCode } from './table-error.ts';
export type {
  Cell,
  OpenedTable,
  OpenOptions,
  Separator,
  TableRow,
  TableSource,
  TextEncoding,
} from './table-types.ts';
export { type CsvWriteOptions, writeCsv } from './write-csv.ts';
export type { WriteColumn, WriteRows, WriteSheet, WriteValue } from './write-types.ts';
export { writeXlsx } from './xlsx/write-xlsx.ts';
