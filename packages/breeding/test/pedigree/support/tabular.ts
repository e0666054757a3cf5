import type { FounderKinship, PedigreeEntry } from '../../../src/pedigree/index.ts';

/**
 * The relationship matrix by the tabular rule, whole and slow, for parents that stand before their progeny: the independent
 * way that the sums of the pedigree are held against. Rule: Henderson 1988 (average relationship), Legarra and others 2015
 * (founder groups); an outsider, a phantom parent and a group are rows of their own ahead of the genets.
 * Each possible combination of an egg's and a pollen grain's parent is gone through one by one.
 */
export function tabularRelationships(
  entries: readonly PedigreeEntry[],
  founders: FounderKinship = { within: 0 },
): { matrix: number[][]; names: string[] } {
  const names: string[] = [];
  const matrix: number[][] = [];
  const gammaOf = (group: string) =>
    typeof founders.within === 'number' ? founders.within : (founders.within.get(group) ?? 0);
  const betweenOf = (a: string, b: string) =>
    founders.between?.find(({ groups }) => groups.includes(a) && groups.includes(b))?.kinship ?? 0;
  const groups = [...new Set(entries.map(({ group }) => group))].filter(
    (group): group is string => group !== null && gammaOf(group) > 0,
  );
  for (const [g, group] of groups.entries()) {
    for (const [h, row] of matrix.entries()) row.push(betweenOf(group, groups[h]!));
    matrix.push([...groups.slice(0, g).map((other) => betweenOf(group, other)), gammaOf(group)]);
    names.push(`group ${group}`);
  }
  /** Adds a genet with the given shares of possible parents; `eggs × pollen` pairs give its own relationship. */
  const add = (name: string, eggs: [number, number][], pollen: [number, number][], own: number): void => {
    const row = matrix.map((_, j) => {
      let sum = 0;
      for (const [parent, chance] of [...eggs, ...pollen]) sum += 0.5 * chance * matrix[parent]![j]!;
      return sum;
    });
    for (const [j, other] of matrix.entries()) other.push(row[j]!);
    matrix.push([...row, own]);
    names.push(name);
  };
  const at = new Map<string, number>();
  const phantoms = new Map<string, number>();
  for (const { genet, seedParents, pollenParents, cloneOf, group, sharedUnknownPollen } of entries) {
    if (cloneOf !== null) {
      at.set(genet, at.get(cloneOf)!);
      continue;
    }
    const groupRow = group === null ? -1 : groups.indexOf(group);
    /** Self-relationship of a plant of which only the group is known, or nothing. */
    const unknownOwn = groupRow < 0 ? 1 : 1 + gammaOf(group!) / 2;
    if (sharedUnknownPollen != null && !phantoms.has(sharedUnknownPollen)) {
      const from: [number, number][] = groupRow < 0 ? [] : [[groupRow, 1]];
      phantoms.set(sharedUnknownPollen, matrix.length);
      add(`phantom ${sharedUnknownPollen}`, from, from, unknownOwn);
    }
    const eggs: [number, number][] = seedParents.map(({ genet: p, chance }) => [at.get(p)!, chance]);
    const eggRest = 1 - seedParents.reduce((sum, { chance }) => sum + chance, 0);
    const outcross: [number, number][] = [];
    let selfed = 0;
    let pollenRest = 1;
    for (const { genet: p, chance } of pollenParents) {
      if (p === 'self') selfed = chance;
      else outcross.push([at.get(p)!, chance]);
      pollenRest -= chance;
    }
    if (pollenRest > 1e-9) {
      if (sharedUnknownPollen != null) outcross.push([phantoms.get(sharedUnknownPollen)!, pollenRest]);
      else if (groupRow >= 0) outcross.push([groupRow, pollenRest]);
    }
    // The row of a group, met as a parent, stands for any plant of it: one plant when selfed, two when not.
    let own = 1;
    for (const [egg, chance] of eggs) {
      for (const [grain, other] of outcross) own += 0.5 * chance * other * matrix[egg]![grain]!;
      own += 0.5 * chance * selfed * matrix[egg]![egg]!;
    }
    if (eggRest > 1e-9) {
      if (groupRow >= 0)
        for (const [grain, other] of outcross) own += 0.5 * eggRest * other * matrix[groupRow]![grain]!;
      own += 0.5 * eggRest * selfed * unknownOwn;
      if (groupRow >= 0) eggs.push([groupRow, eggRest]);
    }
    const pollen: [number, number][] = [
      ...outcross,
      ...eggs.map(([egg, chance]): [number, number] => [egg, chance * selfed]),
    ];
    at.set(genet, matrix.length);
    add(genet, eggs, pollen, own);
  }
  return { matrix, names };
}
