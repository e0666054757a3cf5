import type { FamilyLink } from '@keelrow/server/contract';

/** A place in a row: a member, or a bend of a line that passes through the row. */
export interface Knot {
  readonly id: string;
  readonly member: boolean;
  readonly rank: number;
}
/** A link with the knots it passes through, parent first. */
export interface Strand {
  readonly link: FamilyLink;
  readonly knots: readonly string[];
}

/** Members and bends in rows, top row first, and the strands between neighbouring rows (Sugiyama and others 1981). */
export function rowsOf(
  ranks: ReadonlyMap<string, number>,
  links: readonly FamilyLink[],
): { readonly rows: Knot[][]; readonly strands: readonly Strand[] } {
  const top = Math.min(0, ...ranks.values());
  const rows: Knot[][] = Array.from({ length: Math.max(0, ...ranks.values()) - top + 1 }, () => []);
  for (const [id, rank] of ranks) rows[rank - top]!.push({ id, member: true, rank });
  const strands: Strand[] = [];
  for (const link of links) {
    const [from, to] = [ranks.get(link.parent), ranks.get(link.child)];
    if (from === undefined || to === undefined || from >= to) continue;
    const knots = [link.parent];
    for (let rank = from + 1; rank < to; rank++) {
      const bend = { id: `${link.parent}>${link.child}>${link.side}>${rank}`, member: false, rank };
      rows[rank - top]!.push(bend);
      knots.push(bend.id);
    }
    knots.push(link.child);
    strands.push({ link, knots });
  }
  return { rows, strands };
}

type Neighbours = ReadonlyMap<string, readonly string[]>;

/** Who is tied to whom in the row above (up) and in the row below (down). */
export function neighboursOf(strands: readonly Strand[]): {
  readonly up: Neighbours;
  readonly down: Neighbours;
} {
  const up = new Map<string, string[]>();
  const down = new Map<string, string[]>();
  const put = (map: Map<string, string[]>, from: string, to: string): void => {
    const list = map.get(from);
    if (list) list.push(to);
    else map.set(from, [to]);
  };
  // Seed parents come first, so that they stand to the left of the pollen parent.
  const inOrder = [...strands].sort((a, b) => sideOrder(a) - sideOrder(b));
  for (const { knots } of inOrder) {
    for (let i = 1; i < knots.length; i++) {
      put(up, knots[i]!, knots[i - 1]!);
      put(down, knots[i - 1]!, knots[i]!);
    }
  }
  return { up, down };
}

const sideOrder = ({ link }: Strand): number => (link.side === 'pollen' ? 1 : 0);

/**
 * Orders each row by the mean place of its neighbours in the row before, from the genet outward and back
 * (the barycentre rule of Sugiyama and others 1981); ties keep their order.
 */
export function orderRows(rows: Knot[][], self: number, up: Neighbours, down: Neighbours): void {
  const sortBy = (row: number, before: number, ties: Neighbours): void => {
    const place = new Map(rows[before]!.map(({ id }, index) => [id, index]));
    const wish = new Map(
      rows[row]!.map(({ id }, index) => {
        const places = (ties.get(id) ?? []).flatMap((other) => place.get(other) ?? []);
        return [id, places.length === 0 ? index : places.reduce((a, b) => a + b, 0) / places.length];
      }),
    );
    rows[row]!.sort((a, b) => wish.get(a.id)! - wish.get(b.id)!);
  };
  seedParentsFirst(rows, up);
  for (let turn = 0; turn < 4; turn++) {
    for (let row = self - 1; row >= 0; row--) sortBy(row, row + 1, down);
    for (let row = self + 1; row < rows.length; row++) sortBy(row, row - 1, up);
    for (let row = 1; row <= self; row++) sortBy(row, row - 1, up);
    for (let row = rows.length - 2; row > self; row--) sortBy(row, row + 1, down);
  }
}

/** A first order from the youngest row upward: each one's parents side by side, seed parent left. */
function seedParentsFirst(rows: Knot[][], up: Neighbours): void {
  for (let row = rows.length - 1; row > 0; row--) {
    const wanted = [...new Set(rows[row]!.flatMap(({ id }) => up.get(id) ?? []))];
    const place = new Map(wanted.map((id, index) => [id, index]));
    const last = wanted.length;
    rows[row - 1]!.sort((a, b) => (place.get(a.id) ?? last) - (place.get(b.id) ?? last));
  }
}
