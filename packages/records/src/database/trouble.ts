import { RecordsError } from '../errors.ts';

const byCode: Record<string, readonly [problem: string, remedy: string]> = {
  SQLITE_BUSY: [
    'the programme is locked by another process that has been writing for long',
    'try again when its work is done',
  ],
  '55P03': [
    'the programme is locked by another process that has been writing for long',
    'try again when its work is done',
  ],
  SQLITE_LOCKED: ['the programme is locked by other work', 'try again when it is done'],
  SQLITE_READONLY: [
    'the programme can only be read: its file or folder is write-protected',
    'give yourself the right to write there, or copy it elsewhere',
  ],
  SQLITE_FULL: ['the disk is full; nothing of this was stored', 'make room on the disk and try again'],
  SQLITE_CANTOPEN: [
    'the programme’s file cannot be opened',
    'check that the folder is there and that you may read and write in it',
  ],
  SQLITE_NOTADB: [
    'the file keelrow.sqlite is not a Keelrow programme',
    'put back a copy of the programme, or choose another folder',
  ],
  SQLITE_CORRUPT: ['the programme’s file is damaged', 'put back the last copy that you made of its folder'],
  SQLITE_IOERR: [
    'the disk could not be read or written; nothing of this was stored',
    'check the disk, then try again',
  ],
  ENOTDIR: ['a part of this path is a file, not a folder', 'name a folder'],
  EACCES: [
    'you may not write in the programme’s folder',
    'give yourself the right to write there, or choose another folder',
  ],
  EPERM: [
    'you may not write in the programme’s folder',
    'give yourself the right to write there, or choose another folder',
  ],
  EROFS: ['the programme’s folder can only be read', 'choose a folder on another disk'],
  ENOSPC: ['the disk is full; nothing of this was stored', 'make room on the disk and try again'],
  ECONNREFUSED: ['the PostgreSQL server does not answer', 'start it, or check host and port in the address'],
  '28P01': ['PostgreSQL refused the password', 'check user and password in the address'],
  '3D000': ['that PostgreSQL database does not exist', 'create it first, or check its name in the address'],
  '53100': [
    'the disk of the PostgreSQL server is full; nothing of this was stored',
    'make room there and try again',
  ],
};

/** Turns what a database or the file system throws into words for the person; passes other errors through. */
export function inWords(error: unknown): unknown {
  if (error instanceof RecordsError || !(error instanceof Error)) return error;
  const code = 'code' in error ? String(error.code) : '';
  const known = byCode[code] ?? byCode[code.split('_').slice(0, 2).join('_')];
  if (known) return new RecordsError('store', known[0], known[1]);
  // The pool of connections gives no code of its own.
  if (/timeout exceeded when trying to connect/.test(error.message)) {
    return new RecordsError(
      'store',
      'the PostgreSQL server does not answer, or all connections to it are busy',
      'try again; if it goes on, check that the server runs',
    );
  }
  if (code.startsWith('SQLITE_CONSTRAINT_UNIQUE') || code === '23505') {
    return new RecordsError(
      'conflict',
      `this code or day is there already (${error.message})`,
      'use another code, or change the record that has it',
    );
  }
  if (code.startsWith('SQLITE_CONSTRAINT_FOREIGNKEY') || code === '23503') {
    return new RecordsError('conflict', 'it refers to a record that is not there', 'store that record first');
  }
  return error;
}
