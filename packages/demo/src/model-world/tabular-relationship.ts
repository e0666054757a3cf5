/** Relationships of genets whose parents are known, added parents first. */
export interface RelationshipTable {
  /** Adds a founder of a group (null: of none) and returns its number. Founders of groups come before all seedlings. */
  addFounder(group: number | null): number;
  /** Adds a seedling of two parents, or of one that was selfed, and returns its number. */
  addSeedling(seedParent: number, pollenParent: number): number;
  /** Share of the additive variance that a genet's parents, or its group, do not explain. */
  mendelian(genet: number): number;
}

/**
 * The tabular method, entry by entry (D. S. Falconer and T. F. C. Mackay 1996, Introduction to Quantitative Genetics,
 * section 5.2; founder groups: A. Legarra and others 2015, Genetics 200:455-468). Slow and plain on purpose: gardens
 * drawn by it hold the sparse recursion of breeding/pedigree against something else than itself.
 *
 * @param gamma relationship of two founders of one group; a founder's own is 1 + gamma / 2
 */
export function relationshipTable(gamma: number): RelationshipTable {
  const rows: number[][] = [];
  const groups: (number | null)[] = [];
  const mendelian: number[] = [];
  const between = (a: number, b: number): number => rows[Math.max(a, b)]![Math.min(a, b)]!;
  const add = (row: number[], group: number | null, own: number): number => {
    groups.push(group);
    mendelian.push(own);
    return rows.push(row) - 1;
  };
  return {
    addFounder(group) {
      if (group === null) return add([...rows.map(() => 0), 1], null, 1);
      const row = groups.map((other) => (other === group ? gamma : 0));
      return add([...row, 1 + gamma / 2], group, 1 - gamma / 2);
    },
    addSeedling(seedParent, pollenParent) {
      const row = rows.map((_, older) => (between(older, seedParent) + between(older, pollenParent)) / 2);
      const parentsOwn = between(seedParent, seedParent) + between(pollenParent, pollenParent);
      return add([...row, 1 + between(seedParent, pollenParent) / 2], null, 1 - parentsOwn / 4);
    },
    mendelian: (genet) => mendelian[genet]!,
  };
}
