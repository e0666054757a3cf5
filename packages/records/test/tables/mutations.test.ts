import fc from 'fast-check';
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

it('10,000 damaged files are read or refused in words, and never do anything else', async () => {
  let read = 0;
  let refused = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...files),
      fc.array(change, { minLength: 1, maxLength: 4 }),
      async (file, changes) => {
        const bytes = changes.reduce(mutate, file);
        try {
          const table = await openBytes(bytes);
          for await (const { cells } of table.rows)
            expect(cells.length).toBeGreaterThanOrEqual(table.headers.length);
          read++;
        } catch (error) {
          if (!(error instanceof TableError)) throw error;
          expect(error.remedy.length).toBeGreaterThan(5);
          refused++;
        }
      },
    ),
    { seed: 2027, numRuns: 10_000 },
  );
  // Both happen: the mutations are neither all harmless nor all fatal.
  expect(read).toBeGreaterThan(1000);
  expect(refused).toBeGreaterThan(1000);
});
