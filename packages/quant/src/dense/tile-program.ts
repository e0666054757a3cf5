import {
  ADD,
  ADD_TWO,
  get,
  INT,
  int,
  least,
  loadTwice,
  loadTwo,
  moduleOf,
  repeatWhile,
  set,
  stepped,
  storeTwo,
  TIMES,
  TIMES_TWO,
  tee,
  VECTOR,
  when,
  ZEROS,
} from './wasm-bytes.ts';

/** Bytes of four doubles. */
const FOUR = 32;

// Parameters: groups of four rows and of four columns, length of the sums, addresses of rows, columns and results, and
// whether groups of columns beyond the group of rows are left out.
const [ROWS, COLUMNS, LENGTH, A, B, C, LOWER] = [0, 1, 2, 3, 4, 5, 6];
const [G, H, LAST, PA, PB, END, STRIDE] = [7, 8, 9, 10, 11, 12, 13];
/** Eight vectors of two sums, row by row; then one element of a row twice, and two columns each. */
const SUMS = 14;
const [X, Y] = [22, 23];

/**
 * Sums of products for tiles of four rows by four columns, two doubles at a time.
 *
 * Rows come in groups of four: LENGTH times four doubles, one of each row; columns likewise. Tiles of results are written
 * one after another, groups of columns changing fastest, each row by row. Every sum is added up from the first to the last
 * element, without fused operations, as plain JavaScript does it: results are the same bit for bit.
 *
 * @param pages least pages of the memory
 */
export function tileProgram(pages: number): Uint8Array<ArrayBuffer> {
  const sums = Array.from({ length: 8 }, (_, k) => SUMS + k);
  const multiplyAdd = [
    ...[...get(PB), ...loadTwo(0), ...set(Y), ...get(PB), ...loadTwo(16), ...set(Y + 1)],
    ...sums.flatMap((sum, k) => [
      ...(k % 2 === 0 ? [...get(PA), ...loadTwice(8 * (k >> 1)), ...set(X)] : []),
      ...[...get(sum), ...get(X), ...get(Y + (k % 2)), ...TIMES_TWO, ...ADD_TWO, ...set(sum)],
    ]),
    ...[...get(PB), ...int(FOUR), ADD, ...set(PB)],
    ...stepped(PA, FOUR, END),
  ];
  const tile = [
    ...sums.flatMap((sum) => [...ZEROS, ...set(sum)]),
    ...[...get(A), ...get(G), ...get(STRIDE), TIMES, ADD, ...tee(PA), ...get(STRIDE), ADD, ...set(END)],
    ...[...get(B), ...get(H), ...get(STRIDE), TIMES, ADD, ...set(PB)],
    ...repeatWhile(multiplyAdd),
    ...sums.flatMap((sum, k) => [...get(C), ...get(sum), ...storeTwo(16 * k)]),
    ...[...get(C), ...int(4 * FOUR), ADD, ...set(C)],
    ...stepped(H, 1, LAST),
  ];
  const upToDiagonal = [...least([...get(G), ...int(1), ADD], get(COLUMNS)), ...set(LAST)];
  const code = [
    ...[...get(LENGTH), ...int(FOUR), TIMES, ...set(STRIDE), ...int(0), ...set(G)],
    ...repeatWhile([
      ...[...get(COLUMNS), ...set(LAST)],
      ...when(LOWER, upToDiagonal),
      ...[...int(0), ...set(H)],
      ...repeatWhile(tile),
      ...stepped(G, 1, ROWS),
    ]),
  ];
  return moduleOf(
    7,
    [
      [7, INT],
      [11, VECTOR],
    ],
    code,
    pages,
  );
}
