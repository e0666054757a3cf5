import type { Family, FamilyLink } from '@keelrow/server/contract';
import { ranksOf } from './ranks.ts';
import { type Knot, neighboursOf, orderRows, rowsOf } from './rows.ts';
import { spread } from './spread.ts';

export const boxWidth = 128;
export const boxHeight = 46;
const between = 18;
const bendWidth = 12;
/** Between the boxes of two rows. */
const rowGap = 66;

export interface Point {
  readonly x: number;
  readonly y: number;
}
/** Where each member's box has its middle, and the points that each line passes from parent to child. */
export interface TreeLayout {
  readonly width: number;
  readonly height: number;
  readonly places: ReadonlyMap<string, Point & { readonly rank: number }>;
  readonly lines: readonly { readonly link: FamilyLink; readonly points: readonly Point[] }[];
}

/** A family drawn in rows: parents above their children, no box upon another, seed parents to the left. tall: height of a box. */
export function layOutFamily({ self, members, links }: Family, tall: number = boxHeight): TreeLayout {
  const ranks = ranksOf(
    members.map(({ id }) => id),
    links,
    self,
  );
  const { rows, strands } = rowsOf(ranks, links);
  const { up, down } = neighboursOf(strands);
  const selfRow = -Math.min(0, ...ranks.values());
  orderRows(rows, selfRow, up, down);

  const x = new Map<string, number>();
  for (const row of rows)
    setRow(
      row,
      spread(
        row.map(() => 0),
        apartIn(row),
      ),
      x,
    );
  const towards = (row: Knot[], ties: ReadonlyMap<string, readonly string[]>): void => {
    const wished = row.map(({ id }) => {
      const others = ties.get(id) ?? [];
      return others.length === 0
        ? x.get(id)!
        : others.reduce((sum, other) => sum + x.get(other)!, 0) / others.length;
    });
    setRow(row, spread(wished, apartIn(row)), x);
  };
  for (let turn = 0; turn < 6; turn++) {
    for (let row = selfRow - 1; row >= 0; row--) towards(rows[row]!, down);
    for (let row = selfRow + 1; row < rows.length; row++) towards(rows[row]!, up);
    if (turn < 5) {
      for (let row = 1; row <= selfRow; row++) towards(rows[row]!, up);
      for (let row = rows.length - 2; row >= selfRow; row--) towards(rows[row]!, down);
    }
  }
  return finish(rows, strands, x, tall);
}

const widthOf = (knot: Knot): number => (knot.member ? boxWidth : bendWidth);
const apartIn = (row: readonly Knot[]): number[] =>
  row.map((knot, index) => (index === 0 ? 0 : (widthOf(row[index - 1]!) + widthOf(knot)) / 2 + between));
const setRow = (row: readonly Knot[], places: readonly number[], x: Map<string, number>): void => {
  row.forEach(({ id }, index) => {
    x.set(id, places[index]!);
  });
};

function finish(
  rows: readonly Knot[][],
  strands: ReturnType<typeof rowsOf>['strands'],
  x: ReadonlyMap<string, number>,
  tall: number,
): TreeLayout {
  const margin = 12;
  const rowHeight = tall + rowGap;
  const knots = rows.flat();
  const left = Math.min(...knots.map((knot) => x.get(knot.id)! - widthOf(knot) / 2)) - margin;
  const right = Math.max(...knots.map((knot) => x.get(knot.id)! + widthOf(knot) / 2)) + margin;
  const at = new Map(
    rows.flatMap((row, index) =>
      row.map(({ id, rank }) => [
        id,
        { x: x.get(id)! - left, y: margin + tall / 2 + index * rowHeight, rank },
      ]),
    ),
  );
  const members = new Map(knots.filter(({ member }) => member).map(({ id }) => [id, at.get(id)!]));
  return {
    width: right - left,
    height: (rows.length - 1) * rowHeight + tall + 2 * margin,
    places: members,
    lines: strands.map(({ link, knots: passed }) => ({
      link,
      points: passed.map((id, index) => {
        const { x: px, y } = at.get(id)!;
        const half = index === 0 ? tall / 2 : index === passed.length - 1 ? -tall / 2 : 0;
        return { x: px + dock(link, index, passed.length), y: y + half };
      }),
    })),
  };
}

/** Lines of the seed and pollen side meet a child a little left and right of its middle, so that they are told apart. */
function dock({ side }: FamilyLink, index: number, length: number): number {
  if (index !== length - 1) return 0;
  return side === 'seed' ? -24 : side === 'pollen' ? 24 : 0;
}
