import { ABREAST } from './eight-passes.ts';
import type { PairTable } from './pair-table.ts';
import { passingOf } from './relate-couples.ts';

/** Told while relationships are worked out: the share of that work that is done, from 0 to 1. */
export type KinshipProgress = (share: number) => void;

/**
 * Counts passes for those who wait. A pass over the parents of `end` equations is taken as so much work; what all passes will
 * be follows from the couples alone, so that it is known before the first.
 *
 * @param generations couples that are due after each generation, with the equations that there are by then
 * @returns to be called after each pass with its `end`
 */
export function passCounter(
  couples: PairTable,
  generations: readonly { readonly due: Int32Array; readonly end: number }[],
  onProgress: KinshipProgress,
): (end: number) => void {
  let total = 0;
  for (const { due, end } of generations) {
    const passing = passingOf(couples, due, end);
    const seen = new Uint8Array(end);
    let nodes = 0;
    for (let k = 0; k < due.length; k++) {
      const node = passing(due[k]!);
      if (seen[node] === 0) nodes++;
      seen[node] = 1;
    }
    total += Math.ceil(nodes / ABREAST) * end;
  }
  let done = 0;
  onProgress(total === 0 ? 1 : 0);
  return (end) => {
    done += end;
    onProgress(done / total);
  };
}
