import type { SparseSymmetric } from '@keelrow/quant';
import { orderByAncestry } from './ancestral-order.ts';
import { placesOf } from './clone-sources.ts';
import type { FounderKinship, PedigreeEntry } from './entry.ts';
import { founderGroups } from './founder-groups.ts';
import { ownRelationships } from './inbreeding.ts';
import { inverseRelationship } from './inverse.ts';
import type { KinshipProgress } from './kinship-progress.ts';
import { readParentage } from './parentage.ts';
import { refuseLoop } from './refuse-loop.ts';
import { relationshipsAmong } from './relationships-among.ts';

/** How the genets of a pedigree are related. */
export interface Kinship {
  /** Genets in the order given. */
  readonly genets: readonly string[];
  /**
   * Equation of each genet in the inverse; a clone has its source's. Founder groups and unknown parents that several
   * genets share have equations without a genet.
   */
  readonly equations: Int32Array;
  /** F of each genet, a_ii − 1; a founder of a group that is kin among itself is inbred by γ/2. */
  readonly inbreeding: Float64Array;
  /** m of each genet: the variance of its additive effect that its parents do not explain, per unit; 1 for a founder. */
  readonly mendelian: Float64Array;
  /** Inverse of the relationship matrix of the equations. */
  readonly inverse: SparseSymmetric;
  /** Log-determinant of the relationship matrix (not of its inverse). */
  readonly logDeterminant: number;
  /** Place of a genet in the order given. */
  indexOf(genet: string): number | undefined;
  /** Chance that a gene drawn from a and one drawn from b are alike by descent: half the relationship. */
  coancestry(a: string, b: string): number;
  /** Coancestry of one genet with each, in the order given; time grows with the number of genets. */
  coancestriesWith(a: string): Float64Array;
  /** Additive relationship a_ij. */
  relationship(a: string, b: string): number;
}

/**
 * Works out how genets are related, from rows in any order.
 *
 * @param founders how near of kin the founders of a group are; unrelated unless given
 * @param onProgress told of the share done while relationships between parents are worked out, the one step that can take long
 * @throws PedigreeError when parents are missing from the list, chances do not add up, or a plant is its own ancestor
 */
export function kinshipOf(
  entries: readonly PedigreeEntry[],
  founders?: FounderKinship,
  onProgress?: KinshipProgress,
): Kinship {
  const places = placesOf(entries);
  const groups = founderGroups(entries, founders);
  const parentage = orderByAncestry(readParentage(entries, places, groups.equations)) ?? refuseLoop(entries);
  const described = ownRelationships(parentage, groups, onProgress);
  const { inbreeding, mendelian } = described;
  const equations = parentage.nodeOf;
  let logDeterminant = groups.logDeterminant;
  for (let i = parentage.groups; i < parentage.nodes; i++) logDeterminant += Math.log(mendelian[i]!);
  const byGenet = (byEquation: Float64Array): Float64Array => {
    const values = new Float64Array(equations.length);
    for (let i = 0; i < values.length; i++) values[i] = byEquation[equations[i]!]!;
    return values;
  };
  const among = relationshipsAmong(parentage, groups, described);
  const equationOf = (genet: string): number => {
    const place = places.get(genet);
    if (place === undefined) throw new RangeError(`the genet “${genet}” is not in the pedigree`);
    return equations[place]!;
  };
  const relationship = (a: string, b: string) => among.ofPair(equationOf(a), equationOf(b));
  return {
    genets: entries.map(({ genet }) => genet),
    equations,
    inbreeding: byGenet(inbreeding),
    mendelian: byGenet(mendelian),
    inverse: inverseRelationship(parentage, groups, described),
    logDeterminant,
    indexOf: (genet) => places.get(genet),
    relationship,
    coancestry: (a, b) => relationship(a, b) / 2,
    coancestriesWith: (a) => {
      return byGenet(among.withAll(equationOf(a))).map((related) => related / 2);
    },
  };
}
