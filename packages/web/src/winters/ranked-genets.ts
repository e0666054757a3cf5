import type { WintersReport } from '@keelrow/server/contract';

export type WinterGenet = WintersReport['genets'][number];

/** A genet with its place among all that are listed; `shared` where others have the same chance. */
export interface RankedGenet {
  readonly genet: WinterGenet;
  readonly rank: number;
  readonly shared: boolean;
}

/** The likeliest to come through first; those of one chance share a rank, the one that stood most winters in front. */
export function rankedGenets(genets: readonly WinterGenet[], withGone: boolean): RankedGenet[] {
  const listed = genets.filter(({ alive }) => withGone || alive > 0);
  const sorted = [...listed].sort(
    (a, b) => b.chance - a.chance || b.stood - a.stood || (a.code < b.code ? -1 : 1),
  );
  let rank = 0;
  return sorted.map((genet, index) => {
    const [before, after] = [sorted[index - 1], sorted[index + 1]];
    if (before?.chance !== genet.chance) rank = index + 1;
    return { genet, rank, shared: before?.chance === genet.chance || after?.chance === genet.chance };
  });
}
