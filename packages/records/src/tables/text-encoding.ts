import { isUtf8 } from 'node:buffer';
import iconv from 'iconv-lite';
import type { ByteSource } from './byte-source.ts';
import { TableError } from './table-error.ts';
import type { TextEncoding } from './table-types.ts';

export interface DetectedEncoding {
  readonly encoding: TextEncoding;
  /** Bytes of the byte-order mark, to be skipped. */
  readonly markLength: number;
  /** Absent when the encoding is certain. */
  readonly guess?: { readonly confidence: 'high' | 'low'; readonly message: string };
}

/**
 * Tells the encoding of a text file by its byte-order mark, or else by looking through the whole of it: a file is UTF-8 only
 * if every byte of it fits, however late the first accented letter comes. What is not UTF-8 is taken for Windows-1252.
 * @throws TableError when the file holds zero bytes, as no text does
 */
export async function detectEncoding(source: ByteSource, wanted?: TextEncoding): Promise<DetectedEncoding> {
  const mark = byteOrderMark(await source.head(4));
  if (wanted) return { encoding: wanted, markLength: mark?.encoding === wanted ? mark.markLength : 0 };
  if (mark && mark.encoding !== 'utf-8') return mark;
  const look = await lookThrough(source);
  if (look.counts[0]! > 0) {
    throw new TableError(
      'not-a-table',
      `${source.name} is not a text file and not a spreadsheet: it holds zero bytes.`,
      'Choose an .xlsx or CSV file; if it is text, save it as CSV in UTF-8.',
    );
  }
  if (look.utf8) return { encoding: 'utf-8', markLength: mark?.markLength ?? 0 };
  return {
    encoding: 'windows-1252',
    markLength: 0,
    guess: guessWindows1252(look.counts, mark !== undefined),
  };
}

function byteOrderMark(head: Uint8Array): DetectedEncoding | undefined {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: 'utf-8', markLength: 3 };
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: 'utf-16le', markLength: 2 };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: 'utf-16be', markLength: 2 };
  return undefined;
}

/** One pass over all bytes: how often each occurs, and whether they are UTF-8 throughout. */
async function lookThrough(source: ByteSource): Promise<{ counts: Float64Array; utf8: boolean }> {
  const counts = new Float64Array(256);
  let utf8 = true;
  let carry: Uint8Array = new Uint8Array(0);
  for await (const chunk of source.chunks()) {
    for (const byte of chunk) counts[byte]!++;
    if (!utf8) continue;
    const joined = carry.length > 0 ? Buffer.concat([carry, chunk]) : chunk;
    const cut = startOfLastCharacter(joined);
    utf8 = isUtf8(joined.subarray(0, cut));
    carry = joined.slice(cut);
  }
  return { counts, utf8: utf8 && isUtf8(carry) };
}

/** Where the last character of a chunk begins, so that one cut in half is judged together with the next chunk. */
function startOfLastCharacter(bytes: Uint8Array): number {
  for (let back = 1; back <= 4 && back <= bytes.length; back++) {
    if ((bytes[bytes.length - back]! & 0xc0) !== 0x80) return bytes.length - back;
  }
  return bytes.length;
}

// Codes that Windows-1252 leaves undefined; from memory.
const undefinedCodes = [0x81, 0x8d, 0x8f, 0x90, 0x9d];
// Signs that people type: € ‚ „ … ‹ ‘ ’ “ ” – — ™ › nbsp § © « ® ° ± ² ³ ´ µ · º » ¼ ½ ¾; letters from 0xc0 on, with ×.
const usualSigns = [
  0x80, 0x82, 0x84, 0x85, 0x8b, 0x91, 0x92, 0x93, 0x94, 0x96, 0x97, 0x99, 0x9b, 0xa0, 0xa7, 0xa9, 0xab, 0xae,
  0xb0, 0xb1, 0xb2, 0xb3, 0xb4, 0xb5, 0xb7, 0xba, 0xbb, 0xbc, 0xbd, 0xbe,
];

function guessWindows1252(
  counts: Float64Array,
  hasUtf8Mark: boolean,
): NonNullable<DetectedEncoding['guess']> {
  const sum = (codes: Iterable<number>) => [...codes].reduce((total, code) => total + counts[code]!, 0);
  const range = (first: number, last: number) =>
    Array.from({ length: last - first + 1 }, (_, at) => first + at);
  const beyondAscii = sum(range(0x80, 0xff));
  const likely = sum(range(0xc0, 0xff)) + sum(usualSigns);
  // Ã and Â stand before nearly every accented letter of UTF-8 that is read as Windows-1252.
  const leadBytes = sum([0xc2, 0xc3]);
  const sure =
    !hasUtf8Mark && sum(undefinedCodes) === 0 && likely >= 0.9 * beyondAscii && leadBytes < 0.3 * beyondAscii;
  const message = 'The file is not UTF-8; its accented letters and signs are read as Windows-1252.';
  return sure
    ? { confidence: 'high', message }
    : {
        confidence: 'low',
        message: `${message} Some of them may come out wrong: look at names with accents, and if they are wrong save the file as UTF-8.`,
      };
}

/** The file's text without its byte-order mark, as UTF-8 bytes, chunk by chunk. */
export async function* utf8Chunks(
  source: ByteSource,
  { encoding, markLength }: DetectedEncoding,
): AsyncGenerator<Uint8Array> {
  const decoder =
    encoding === 'utf-8' ? undefined : iconv.getDecoder(iconvNames[encoding], { stripBOM: false });
  let skip = markLength;
  for await (const chunk of source.chunks()) {
    const bytes = Buffer.from(chunk.buffer, chunk.byteOffset, chunk.byteLength).subarray(skip);
    skip = Math.max(0, skip - chunk.length);
    yield decoder ? Buffer.from(decoder.write(bytes)) : bytes;
  }
  const rest = decoder?.end();
  if (rest) yield Buffer.from(rest);
}

const iconvNames: Record<TextEncoding, string> = {
  'utf-8': 'utf8',
  'utf-16le': 'utf16le',
  'utf-16be': 'utf-16be',
  'windows-1252': 'windows-1252',
  'mac-roman': 'macroman',
};
