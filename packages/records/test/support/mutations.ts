import fc from 'fast-check';

export type Cells = readonly (readonly string[])[];

/** A place in a table or a file as a share of its length, so that it fits files of any size. */
const share = fc.double({ min: 0, max: 0.999999, noNaN: true });
const at = (where: number, length: number): number => Math.floor(where * length);

const strange = fc.constantFrom(
  '',
  ' ',
  'NA',
  '-',
  'Z/9',
  'self',
  'A;B',
  'A:0.7;B:0.7',
  '1e999',
  '-1e308',
  '99999999999999999999',
  '2147483648',
  '0x10',
  '1,5',
  '1.234,5',
  '1/2',
  '2399-01-01',
  '2021-02-30',
  '31/02/2021',
  '5/4/2021',
  '12:99',
  'yes',
  '=1+1',
  '"',
  "'",
  'a\nb',
  '\u0000',
  '\ufeff',
  '\ud800',
  '☃'.repeat(300),
  'x'.repeat(5000),
  'constructor',
  '__proto__',
  'toString',
  '01900000-0000-7000-8000-000000000001',
  'dead',
  'tall',
  '100 0 0',
  '5 kg',
  '5 °C',
);
const headers = fc.constantFrom(
  'code',
  'id',
  'plant',
  'genet',
  'on',
  'value',
  'unit',
  'trait',
  'year',
  'Height (cm)',
  'remark',
  '',
  'constructor',
  '__proto__',
  'seed_parent',
  'place',
  'bed',
);

/** Something that befalls a table before it is written: cells exchanged, headers doubled, rows cut, wrong words. */
export const cellMutation: fc.Arbitrary<(cells: Cells) => Cells> = fc
  .tuple(
    fc.constantFrom(
      'set',
      'set',
      'set',
      'swap',
      'double row',
      'drop row',
      'cut row',
      'double column',
      'drop column',
      'head',
      'head again',
      'empty row',
      'shuffle',
    ),
    share,
    share,
    share,
    share,
    strange,
    headers,
  )
  .map(([what, y, x, y2, x2, word, header]) => (cells: Cells): Cells => {
    if (cells.length === 0 || cells[0]!.length === 0) return cells;
    const [row, column] = [at(y, cells.length), at(x, cells[0]!.length)];
    const [row2, column2] = [at(y2, cells.length), at(x2, cells[0]!.length)];
    const grid = cells.map((line) => [...line]);
    switch (what) {
      case 'set':
        grid[row]![column] = word;
        return grid;
      case 'swap': {
        const kept = grid[row]![column] ?? '';
        grid[row]![column] = grid[row2]![column2] ?? '';
        grid[row2]![column2] = kept;
        return grid;
      }
      case 'double row':
        return [...grid.slice(0, row), grid[row]!, ...grid.slice(row)];
      case 'drop row':
        return grid.filter((_, index) => index !== row);
      case 'cut row':
        grid[row] = grid[row]!.slice(0, column);
        return grid;
      case 'double column':
        return grid.map((line) => [...line.slice(0, column), line[column] ?? '', ...line.slice(column)]);
      case 'drop column':
        return grid.map((line) => line.filter((_, index) => index !== column));
      case 'head':
        grid[0]![column] = header;
        return grid;
      case 'head again':
        return [grid[0]!, ...grid];
      case 'empty row':
        return [...grid.slice(0, row), grid[0]!.map(() => ''), ...grid.slice(row)];
      default:
        return [grid[0]!, ...grid.slice(1).reverse()];
    }
  });

/** Something that befalls the bytes of a file. */
export const byteMutation: fc.Arbitrary<(bytes: Buffer) => Buffer> = fc
  .tuple(
    fc.constantFrom('flip', 'cut', 'double', 'zero', 'sign', 'drop'),
    share,
    fc.integer({ min: 1, max: 255 }),
  )
  .map(([what, where, number]) => (bytes: Buffer): Buffer => {
    if (bytes.length === 0) return bytes;
    const place = at(where, bytes.length);
    const [before, after] = [bytes.subarray(0, place), bytes.subarray(place)];
    switch (what) {
      case 'flip':
        return Buffer.concat([before, Buffer.from([bytes[place]! ^ number]), after.subarray(1)]);
      case 'cut':
        return before;
      case 'double':
        return Buffer.concat([before, after.subarray(0, number), after]);
      case 'zero':
        return Buffer.concat([before, Buffer.alloc(number % 5), after]);
      case 'sign':
        return Buffer.concat([before, Buffer.from('",;\t\n\r=|'[number % 8]!), after]);
      default:
        return Buffer.concat([before, after.subarray(number)]);
    }
  });

/** Writes cells as text, quoted where they need it. */
export const asCsv = (cells: Cells, separator: string): Buffer =>
  Buffer.from(
    `${cells
      .map((line) =>
        line
          .map((cell) => (/[",;\t\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell))
          .join(separator),
      )
      .join('\n')}\n`,
  );
