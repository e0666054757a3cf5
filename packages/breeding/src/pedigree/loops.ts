/**
 * Finds a loop in parentage: a genet that is its own ancestor.
 * parentsOf: for each genet its parents (either side, possible ones included, sources of sports included).
 * Returns the loop from a genet back to itself, such as [A, B, A] where B is a parent of A and A of B; null if none.
 * Depth-first search without recursion, so that long pedigrees do not exhaust the stack (Tarjan 1972).
 */
export function findLoop(parentsOf: ReadonlyMap<string, readonly string[]>): string[] | null {
  const finished = new Set<string>();
  for (const start of parentsOf.keys()) {
    if (finished.has(start)) continue;
    const path: { genet: string; next: number }[] = [{ genet: start, next: 0 }];
    const onPath = new Set([start]);
    while (path.length > 0) {
      const here = path[path.length - 1]!;
      const parents = parentsOf.get(here.genet) ?? [];
      const parent = parents[here.next];
      if (parent === undefined) {
        finished.add(here.genet);
        onPath.delete(here.genet);
        path.pop();
        continue;
      }
      here.next += 1;
      if (onPath.has(parent)) {
        const from = path.findIndex(({ genet }) => genet === parent);
        return [...path.slice(from).map(({ genet }) => genet), parent];
      }
      if (!finished.has(parent)) {
        path.push({ genet: parent, next: 0 });
        onPath.add(parent);
      }
    }
  }
  return null;
}
