import fc from 'fast-check';
import { unzipSync, zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { TableError } from '../../src/tables/index.ts';
import { fixtureBytes, openBytes } from './reading-help.ts';

const files = [
  'csv_always_quoted.csv',
  'csv_optional_quotes_excel2008CSV.csv',
  'empty_line.tab',
  'fruit_bloom_cp1252.csv',
  'dates-1904.xlsx',
  'merged-headers.xlsx',
  'resaved.xlsx',
].map(fixtureBytes);

type Change = readonly ['flip' | 'cut' | 'double' | 'zero' | 'quote' | 'drop', number, number];

const change: fc.Arbitrary<Change> = fc.tuple(
  fc.constantFrom('flip', 'cut', 'double', 'zero', 'quote', 'drop'),
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.integer({ min: 1, max: 255 }),
);

/** A file after an accident; `where` is a share of its length. */
function mutate(bytes: Uint8Array, [kind, where, what]: Change): Uint8Array {
  const at = Math.min(bytes.length - 1, Math.floor(where * bytes.length));
  const before = bytes.subarray(0, at);
  const after = bytes.subarray(at);
  switch (kind) {
    case 'flip':
      return Buffer.concat(
        [before, [(bytes[at] ?? 0) ^ what], after.subarray(1)].map((part) => Buffer.from(part)),
      );
    case 'cut':
      return before;
    case 'double':
      return Buffer.concat([before, after.subarray(0, what), after]);
    case 'zero':
      return Buffer.concat([before, Buffer.alloc(what % 5), after]);
    case 'quote':
      return Buffer.concat([before, Buffer.from(what % 2 ? '"' : "'"), after]);
    case 'drop':
      return Buffer.concat([before, after.subarray(what)]);
  }
}

/** Opens a file and reads all of it. Anything but rows or a refusal in words is thrown on. */
async function outcome(bytes: Uint8Array): Promise<'read' | 'refused'> {
  try {
    const table = await openBytes(bytes);
    for await (const { cells } of table.rows)
      expect(cells.length).toBeGreaterThanOrEqual(table.headers.length);
    return 'read';
  } catch (error) {
    if (!(error instanceof TableError)) throw error;
    expect(error.remedy.length).toBeGreaterThan(5);
    return 'refused';
  }
}

const changes = fc.array(change, { minLength: 1, maxLength: 4 });

it('10,000 damaged files are read or refused in words, and never do anything else', async () => {
  const counts = { read: 0, refused: 0 };
  await fc.assert(
    fc.asyncProperty(fc.constantFrom(...files), changes, async (file, made) => {
      counts[await outcome(made.reduce(mutate, file))]++;
    }),
    { seed: 2027, numRuns: 10_000 },
  );
  // Both happen: the mutations are neither all harmless nor all fatal.
  expect(counts.read).toBeGreaterThan(1000);
  expect(counts.refused).toBeGreaterThan(1000);
});

it('so are 3,000 spreadsheets damaged inside, whose archive is sound', async () => {
  const books = files.slice(-3).map((file) => unzipSync(file));
  const counts = { read: 0, refused: 0 };
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...books),
      fc.double({ min: 0, max: 0.999, noNaN: true }),
      changes,
      async (book, which, made) => {
        const parts = Object.keys(book);
        const part = parts[Math.floor(which * parts.length)]!;
        counts[await outcome(zipSync({ ...book, [part]: made.reduce(mutate, book[part]!) }, { level: 1 }))]++;
      },
    ),
    { seed: 2028, numRuns: 3000 },
  );
  expect(counts.read).toBeGreaterThan(300);
  expect(counts.refused).toBeGreaterThan(300);
});
