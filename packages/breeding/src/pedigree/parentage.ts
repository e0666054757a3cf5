import type { PossibleParent } from '../facts/field.ts';
import { checkParents } from '../facts/parents.ts';
import { cloneSources } from './clone-sources.ts';
import type { PedigreeEntry } from './entry.ts';
import { PedigreeError } from './pedigree-error.ts';

/** What chances leave is taken as nothing below this, so that ⅓ + ⅓ + ⅓ leaves no outsider. */
const NOTHING = 1e-9;

/**
 * Parents by number. Nodes are the founder groups, then phantom parents, then the genets in the order given; clones are
 * their source's node. The parents of node i are `parent[start[i] … start[i + 1] - 1]`, each once and ascending.
 */
export interface Parentage {
  readonly nodes: number;
  readonly groups: number;
  /** Node of each entry. */
  readonly nodeOf: Int32Array;
  readonly start: Int32Array;
  readonly parent: Int32Array;
  /** Chance of each parent to have given the egg, and the pollen (selfs included). */
  readonly seed: Float64Array;
  readonly pollen: Float64Array;
  /** Chance of each node that its pollen came from its seed parent as a self. */
  readonly self: Float64Array;
}

/**
 * Numbers the parents of all entries, checking each entry by itself.
 *
 * @param places place of each genet in the list
 * @param groupNodes node of each founder group that is kin among itself, from 0
 */
export function readParentage(
  entries: readonly PedigreeEntry[],
  places: ReadonlyMap<string, number>,
  groupNodes: ReadonlyMap<string, number>,
): Parentage {
  const source = cloneSources(entries, places);
  const { most, ...phantoms } = phantomParents(entries);
  const groups = groupNodes.size;
  const firstGenet = groups + phantoms.groups.length;
  const nodeOf = new Int32Array(entries.length);
  let nodes = firstGenet;
  for (let i = 0; i < entries.length; i++) if (source[i] === i) nodeOf[i] = nodes++;
  for (let i = 0; i < entries.length; i++) nodeOf[i] = nodeOf[source[i]!]!;

  const lists = new ParentLists(nodes, most);
  for (let g = 0; g < groups; g++) lists.close();
  for (const group of phantoms.groups) {
    const node = group === null ? undefined : groupNodes.get(group);
    if (node !== undefined) lists.add(node, 1, 1);
    lists.close();
  }
  for (let i = 0; i < entries.length; i++) {
    if (source[i] !== i) continue;
    const entry = entries[i]!;
    const { seedParents, pollenParents, group, sharedUnknownPollen } = entry;
    checkSide(entry, seedParents, 'seed');
    checkSide(entry, pollenParents, 'pollen');
    let seedRest = 1;
    for (const { genet, chance } of seedParents) {
      lists.add(nodeOf[placeOf(genet, entry, places)]!, chance, 0);
      seedRest -= chance;
    }
    let pollenRest = 1;
    for (const { genet, chance } of pollenParents) {
      if (genet === 'self') lists.self(chance);
      else lists.add(nodeOf[placeOf(genet, entry, places)]!, 0, chance);
      pollenRest -= chance;
    }
    if (sharedUnknownPollen != null && pollenRest > NOTHING) {
      lists.add(groups + phantoms.numbers.get(sharedUnknownPollen)!, 0, pollenRest);
      pollenRest = 0;
    }
    const groupNode = group === null ? undefined : groupNodes.get(group);
    if (groupNode !== undefined && (seedRest > NOTHING || pollenRest > NOTHING))
      lists.add(groupNode, seedRest > NOTHING ? seedRest : 0, pollenRest > NOTHING ? pollenRest : 0);
    lists.close();
  }
  return { nodes, groups, nodeOf, ...lists.finished() };
}

/** Parents of one node after another, the same parent of both sides once. */
class ParentLists {
  private readonly start: Int32Array;
  private readonly parent: Int32Array;
  private readonly seed: Float64Array;
  private readonly pollen: Float64Array;
  private readonly selfShare: Float64Array;
  private node = 0;
  private from = 0;
  private to = 0;

  constructor(nodes: number, most: number) {
    this.start = new Int32Array(nodes + 1);
    this.parent = new Int32Array(most);
    this.seed = new Float64Array(most);
    this.pollen = new Float64Array(most);
    this.selfShare = new Float64Array(nodes);
  }

  add(parent: number, seed: number, pollen: number): void {
    const { to } = this;
    if (to > this.from && this.parent[to - 1]! >= parent) {
      this.insert(parent, seed, pollen);
      return;
    }
    this.parent[to] = parent;
    this.seed[to] = seed;
    this.pollen[to] = pollen;
    this.to = to + 1;
  }

  private insert(parent: number, seed: number, pollen: number): void {
    let at = this.from;
    while (this.parent[at]! < parent) at++;
    if (this.parent[at] !== parent) {
      for (let k = this.to; k > at; k--) {
        this.parent[k] = this.parent[k - 1]!;
        this.seed[k] = this.seed[k - 1]!;
        this.pollen[k] = this.pollen[k - 1]!;
      }
      this.to++;
      this.parent[at] = parent;
      this.seed[at] = 0;
      this.pollen[at] = 0;
    }
    this.seed[at] = this.seed[at]! + seed;
    this.pollen[at] = this.pollen[at]! + pollen;
  }

  self(chance: number): void {
    this.selfShare[this.node] = chance;
  }

  /** Ends the list of one node and begins the next. */
  close(): void {
    const self = this.selfShare[this.node]!;
    if (self > 0)
      for (let k = this.from; k < this.to; k++) this.pollen[k] = this.pollen[k]! + self * this.seed[k]!;
    this.from = this.to;
    this.start[++this.node] = this.to;
  }

  finished(): Pick<Parentage, 'start' | 'parent' | 'seed' | 'pollen' | 'self'> {
    return {
      start: this.start,
      parent: this.parent.subarray(0, this.to),
      seed: this.seed.subarray(0, this.to),
      pollen: this.pollen.subarray(0, this.to),
      self: this.selfShare,
    };
  }
}

/**
 * Numbers the unknown pollen parents that several genets share, each with the founder group of these, and counts how many
 * parents all have at most, groups and phantoms among them.
 */
function phantomParents(entries: readonly PedigreeEntry[]): {
  numbers: ReadonlyMap<string, number>;
  groups: readonly (string | null)[];
  most: number;
} {
  const numbers = new Map<string, number>();
  const groups: (string | null)[] = [];
  const firstRows: (number | undefined)[] = [];
  let most = 0;
  for (let i = 0; i < entries.length; i++) {
    const { seedParents, pollenParents, sharedUnknownPollen: name, group, row } = entries[i]!;
    most += seedParents.length + pollenParents.length;
    if (group !== null) most++;
    if (name == null) continue;
    most++;
    const number = numbers.get(name);
    if (number === undefined) {
      numbers.set(name, groups.length);
      groups.push(group);
      firstRows.push(row);
    } else if (groups[number] !== group) {
      throw new PedigreeError(
        `the genets that share the unknown pollen parent “${name}” name different founder groups`,
        'Give them one founder group',
        [firstRows[number], row],
      );
    }
  }
  return { numbers, groups, most: most + groups.length };
}

function checkSide(entry: PedigreeEntry, parents: readonly PossibleParent[], side: 'seed' | 'pollen'): void {
  if (parents.length === 0) return;
  const certain = parents.length === 1 && parents[0]!.chance === 1;
  if (!certain || parents[0]!.genet === 'self') {
    const fault = checkParents(parents, side);
    if (fault)
      throw new PedigreeError(
        `the ${side} parents of “${entry.genet}”: ${fault.problem}`,
        'Mend the chances',
        [entry.row],
      );
  }
}

function placeOf(genet: string, entry: PedigreeEntry, places: ReadonlyMap<string, number>): number {
  const place = places.get(genet);
  if (place !== undefined) return place;
  throw new PedigreeError(
    `“${genet}”, a parent of “${entry.genet}”, is not among the genets`,
    'Add a row for it; of a founder the parents stay empty',
    [entry.row],
  );
}
