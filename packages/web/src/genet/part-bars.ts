import type { InformationParts } from '@keelrow/server/contract';

/** One part of an estimate as a bar that begins where the part before it ended; in the trait's own unit. */
export interface PartBar {
  readonly from: string;
  readonly words: string;
  readonly notes: number;
  readonly effect: number;
  readonly start: number;
  readonly end: number;
}

/**
 * The parts of an estimate one after another, from the average genet (0) to the estimate. Parts are reckoned on the scale
 * of the sums; in the trait's own unit the whole distance is shared out in their proportion.
 * whole: that distance in the trait's own unit.
 */
export function partBars({ effect, parts, scale }: InformationParts, whole: number): PartBar[] {
  const unit = scale === 'as noted' ? 1 : Math.abs(effect) > 1e-9 ? whole / effect : 0;
  let start = 0;
  return parts
    .filter((part) => part.effect !== 0 || part.notes > 0)
    .map(({ from, words, notes, effect: own }) => {
      const bar = { from, words, notes, effect: own * unit, start, end: start + own * unit };
      start = bar.end;
      return bar;
    });
}
