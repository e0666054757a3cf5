import type { PossibleParent } from '../facts/field.ts';

/** One genet and its parents as facts hold them. */
export interface PedigreeEntry {
  readonly genet: string;
  /** Possible seed parents with their chances; what the chances leave is an outsider, unrelated unless `group` says whose. */
  readonly seedParents: readonly PossibleParent[];
  /** Likewise; the genet 'self' stands for the seed parent, whichever that is. */
  readonly pollenParents: readonly PossibleParent[];
  /** The genet that this one is a sport or clone of; it then has no parents of its own. */
  readonly cloneOf: string | null;
  /** The founder group that parents stem from where they are not given: of a founder both, else the rest of the chance. */
  readonly group: string | null;
  /** Names a pollen parent that is unknown, but one and the same for all genets that give this name (a pod, a family). */
  readonly sharedUnknownPollen?: string | null;
  /** Row in the file, for messages. */
  readonly row?: number;
}

/**
 * How near of kin founders are: γ = 2θ, twice the coancestry of two founders of one group. 0 is unrelated; near 2, the
 * group is all but fixed for its own genes. Below 2.
 */
export interface FounderKinship {
  /** γ within each group, one for all or by group (groups that are not named: 0). */
  readonly within: number | ReadonlyMap<string, number>;
  /** γ between two groups, where it is not 0: provenances of one taxon, say. */
  readonly between?: readonly { readonly groups: readonly [string, string]; readonly kinship: number }[];
}
