import type { FamilyLink } from '@keelrow/server/contract';

/**
 * The row of each member: every parent at least one row above each of its children (longest path from the
 * ancestors down), ancestors drawn as low as their children allow, and the genet itself on row 0.
 * A loop, which records refuse, would be cut where it closes.
 */
export function ranksOf(
  members: readonly string[],
  links: readonly FamilyLink[],
  self: string,
): ReadonlyMap<string, number> {
  const known = new Set(members);
  const parents = new Map<string, string[]>(members.map((id) => [id, []]));
  const children = new Map<string, string[]>(members.map((id) => [id, []]));
  for (const { parent, child } of links) {
    if (!known.has(parent) || !known.has(child) || parent === child) continue;
    parents.get(child)!.push(parent);
    children.get(parent)!.push(child);
  }
  const order = oldestFirst(members, children);
  const rank = new Map<string, number>();
  const place = new Map(order.map((id, index) => [id, index]));
  const older = (a: string, b: string): boolean => place.get(a)! < place.get(b)!;
  for (const id of order) {
    const above = parents.get(id)!.filter((parent) => older(parent, id));
    rank.set(id, above.length === 0 ? 0 : 1 + Math.max(...above.map((parent) => rank.get(parent)!)));
  }
  for (const id of [...order].reverse()) {
    const below = children.get(id)!.filter((child) => older(id, child));
    if (below.length > 0) rank.set(id, Math.min(...below.map((child) => rank.get(child)!)) - 1);
  }
  const zero = rank.get(self) ?? 0;
  return new Map(members.map((id) => [id, rank.get(id)! - zero]));
}

/** Parents before children: reverse order of a depth-first walk's leaving (Tarjan 1976). */
function oldestFirst(members: readonly string[], children: ReadonlyMap<string, readonly string[]>): string[] {
  const left: string[] = [];
  const seen = new Set<string>();
  const visit = (start: string): void => {
    const path: { id: string; next: number }[] = [{ id: start, next: 0 }];
    seen.add(start);
    while (path.length > 0) {
      const here = path[path.length - 1]!;
      const child = children.get(here.id)![here.next++];
      if (child === undefined) {
        left.push(here.id);
        path.pop();
      } else if (!seen.has(child)) {
        seen.add(child);
        path.push({ id: child, next: 0 });
      }
    }
  };
  for (const id of members) if (!seen.has(id)) visit(id);
  return left.reverse();
}
