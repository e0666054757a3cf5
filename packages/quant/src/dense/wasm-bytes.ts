// The few instructions of WebAssembly that the tile program needs, as bytes (WebAssembly Core Specification 2.0, chapter 5).

/** A whole number without sign, in groups of seven bits. */
function unsigned(n: number): number[] {
  return n < 128 ? [n] : [(n & 127) | 128, ...unsigned(n >>> 7)];
}

function signed(n: number): number[] {
  const low = n & 127;
  const rest = n >> 7;
  const ends = (rest === 0 && low < 64) || (rest === -1 && low >= 64);
  return ends ? [low] : [low | 128, ...signed(rest)];
}

export const INT = 0x7f;
export const VECTOR = 0x7b;

export const get = (local: number): number[] => [0x20, ...unsigned(local)];
export const set = (local: number): number[] => [0x21, ...unsigned(local)];
/** Sets the local and leaves the value. */
export const tee = (local: number): number[] => [0x22, ...unsigned(local)];
export const int = (n: number): number[] => [0x41, ...signed(n)];
export const ADD = 0x6a;
export const TIMES = 0x6c;
const LESS = 0x48;

/** Repeats the body, which must leave a condition, while that holds. */
export const repeatWhile = (body: readonly number[]): number[] => [0x03, 0x40, ...body, 0x0d, 0, 0x0b];
/** local + step < limit, the local moved on. */
export const stepped = (local: number, step: number, limit: number): number[] => [
  ...get(local),
  ...int(step),
  ADD,
  ...tee(local),
  ...get(limit),
  LESS,
];
/** Runs the body where the local is not 0. */
export const when = (local: number, body: readonly number[]): number[] => [
  ...get(local),
  0x04,
  0x40,
  ...body,
  0x0b,
];
/** The smaller of two whole numbers. */
export const least = (a: readonly number[], b: readonly number[]): number[] => [
  ...a,
  ...b,
  ...a,
  ...b,
  LESS,
  0x1b,
];

const simd = (operation: number): number[] => [0xfd, ...unsigned(operation)];
/** Two doubles from memory, `offset` bytes past the address on the stack. */
export const loadTwo = (offset: number): number[] => [...simd(0), 3, ...unsigned(offset)];
/** One double from memory, twice. */
export const loadTwice = (offset: number): number[] => [...simd(10), 3, ...unsigned(offset)];
export const storeTwo = (offset: number): number[] => [...simd(11), 3, ...unsigned(offset)];
export const ZEROS: readonly number[] = [...simd(12), ...new Array<number>(16).fill(0)];
export const TIMES_TWO: readonly number[] = simd(0xf2);
export const ADD_TWO: readonly number[] = simd(0xf0);

/**
 * A module with one function, `run`, of whole numbers without result, on a memory given as `on.memory`.
 *
 * @param locals counts and kinds of further locals
 * @param pages least pages of the memory
 */
export function moduleOf(
  parameters: number,
  locals: readonly (readonly [count: number, kind: number])[],
  code: readonly number[],
  pages: number,
): Uint8Array<ArrayBuffer> {
  const section = (id: number, bytes: readonly number[]) => [id, ...unsigned(bytes.length), ...bytes];
  const text = (name: string) => [name.length, ...Array.from(name, (letter) => letter.charCodeAt(0))];
  const declared = locals.flatMap(([count, kind]) => [...unsigned(count), kind]);
  const body = [locals.length, ...declared, ...code, 0x0b];
  return Uint8Array.from([
    ...[0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
    ...section(1, [1, 0x60, parameters, ...new Array<number>(parameters).fill(INT), 0]),
    ...section(2, [1, ...text('on'), ...text('memory'), 2, 0, ...unsigned(pages)]),
    ...section(3, [1, 0]),
    ...section(7, [1, ...text('run'), 0, 0]),
    ...section(10, [1, ...unsigned(body.length), ...body]),
  ]);
}
