import { TableError } from './table-error.ts';

const spreadsheetRemedy = 'Open it in a spreadsheet program and save it as .xlsx or as CSV in UTF-8.';

interface Signature {
  readonly start: readonly number[];
  readonly what: string;
  readonly remedy: string;
}

const bytesOf = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
const picture = (start: readonly number[]): Signature => ({
  start,
  what: 'a picture',
  remedy: 'Type the table into a spreadsheet program, or choose the file that holds it.',
});

// Leading bytes, from memory; each is the one that the format's own description gives.
const signatures: readonly Signature[] = [
  picture([0x89, 0x50, 0x4e, 0x47]),
  picture([0xff, 0xd8, 0xff]),
  picture(bytesOf('GIF8')),
  picture([0x49, 0x49, 0x2a, 0x00]),
  picture([0x4d, 0x4d, 0x00, 0x2a]),
  { start: bytesOf('%PDF-'), what: 'a PDF document', remedy: 'Ask for the table itself, as .xlsx or CSV.' },
  {
    start: bytesOf('{\\rtf'),
    what: 'a text document (RTF)',
    remedy: 'Copy its table into a spreadsheet program and save it as .xlsx or CSV.',
  },
  { start: [0x1f, 0x8b], what: 'a compressed file (gzip)', remedy: 'Unpack it and choose the file inside.' },
  {
    start: bytesOf('7z\xbc\xaf\x27\x1c'),
    what: 'a compressed file (7z)',
    remedy: 'Unpack it and choose the file inside.',
  },
  {
    start: bytesOf('Rar!\x1a'),
    what: 'a compressed file (RAR)',
    remedy: 'Unpack it and choose the file inside.',
  },
  { start: bytesOf('SQLite format 3\0'), what: 'a database (SQLite)', remedy: 'Export its table as CSV.' },
  { start: bytesOf('PAR1'), what: 'a Parquet file', remedy: 'Export it as CSV.' },
  { start: [0x09, 0x08], what: 'a spreadsheet in the old binary form (.xls)', remedy: spreadsheetRemedy },
  { start: [0x09, 0x04], what: 'a spreadsheet in the old binary form (.xls)', remedy: spreadsheetRemedy },
];

const zipStarts = [bytesOf('PK\x03\x04'), bytesOf('PK\x05\x06')];
const compoundFile = [0xd0, 0xcf, 0x11, 0xe0];

/**
 * Tells by the leading bytes whether a file is a zip archive (perhaps a spreadsheet) or text.
 * @param head the first bytes of the file, some thousands
 * @throws TableError for an empty file and for every kind of file that is known to hold no table
 */
export function recognise(name: string, head: Uint8Array): 'zip' | 'text' {
  if (head.length === 0) {
    throw new TableError(
      'file-empty',
      `${name} is empty.`,
      'Check that it was saved, and that its copy is complete.',
    );
  }
  if (zipStarts.some((start) => starts(head, start))) return 'zip';
  if (starts(head, compoundFile)) throw compoundFileError(name, head);
  for (const { start, what, remedy } of signatures) {
    if (starts(head, start)) throw new TableError('not-a-table', `${name} is ${what}, not a table.`, remedy);
  }
  refuseMarkup(name, head);
  return 'text';
}

function starts(head: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, at) => head[at] === byte);
}

/** The container of old .xls files also wraps .xlsx files that are locked with a password. */
function compoundFileError(name: string, head: Uint8Array): TableError {
  const locked = Buffer.from(head).includes(Buffer.from('EncryptedPackage', 'utf16le'));
  return locked
    ? new TableError(
        'not-a-table',
        `${name} is locked with a password.`,
        'Open it, take the password off, and save it again.',
      )
    : new TableError(
        'not-a-table',
        `${name} is a spreadsheet in the old binary form (.xls) or another old office document.`,
        spreadsheetRemedy,
      );
}

/** Web pages are often served under the name of a spreadsheet. */
function refuseMarkup(name: string, head: Uint8Array): void {
  const text = Buffer.from(head.subarray(0, 4096))
    .toString('latin1')
    .replace(/^\xef\xbb\xbf/, '')
    .trimStart()
    .toLowerCase();
  const isPage = /^(<!--[\s\S]*?-->\s*)?<(!doctype html|html|head|body|table|div|meta|style)\b/.test(text);
  if (isPage || (text.startsWith('<?xml') && text.includes('<html'))) {
    throw new TableError(
      'not-a-table',
      `${name} is a web page, not a table, whatever its name says.`,
      spreadsheetRemedy,
    );
  }
  if (/^<(\?xml|[a-z][\w:-]*[\s>])/.test(text)) {
    throw new TableError('not-a-table', `${name} is an XML document, not a table.`, spreadsheetRemedy);
  }
  if (/^(\{\s*["}]|\[\s*[[{])/.test(text)) {
    throw new TableError(
      'not-a-table',
      `${name} is a JSON document, not a table.`,
      'Export the same data as CSV.',
    );
  }
}
