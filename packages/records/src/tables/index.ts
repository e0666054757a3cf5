export { isBlank } from './blank.ts';
export { columnLetters } from './cell-address.ts';
export type { Finding, FindingCode, Place } from './findings.ts';
export { openTable } from './open-table.ts';
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
export { isUnit, unitSymbol } from './units.ts';
