/**
 * Places in one row, in the given order and at least `apart[i]` from the one before, as near as can be to the
 * wished places (least squares): isotonic regression by pooling adjacent violators (Barlow and others 1972).
 */
export function spread(wished: readonly number[], apart: readonly number[]): number[] {
  let offset = 0;
  const offsets = wished.map((_, index) => {
    offset += index === 0 ? 0 : apart[index]!;
    return offset;
  });
  const pools: { sum: number; count: number }[] = [];
  const mean = (pool: { sum: number; count: number }): number => pool.sum / pool.count;
  wished.forEach((wish, index) => {
    pools.push({ sum: wish - offsets[index]!, count: 1 });
    while (pools.length > 1 && mean(pools[pools.length - 2]!) >= mean(pools[pools.length - 1]!)) {
      const last = pools.pop()!;
      const before = pools[pools.length - 1]!;
      before.sum += last.sum;
      before.count += last.count;
    }
  });
  const level = pools.flatMap((pool) => new Array<number>(pool.count).fill(mean(pool)));
  return level.map((value, index) => value + offsets[index]!);
}
