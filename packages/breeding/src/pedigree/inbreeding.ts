import type { OrderedParentage } from './ancestral-order.ts';
import { couplesByGeneration, couplesOf } from './couples.ts';
import type { FounderGroups } from './founder-groups.ts';
import type { PairTable } from './pair-table.ts';
import { relateCouples } from './relate-couples.ts';

/** What each equation has of its own. */
export interface OwnRelationships {
  /** F = a_ii − 1; of a founder group γ − 1. */
  readonly inbreeding: Float64Array;
  /** m: variance of an additive effect that the parents do not explain, per unit of variance. Of founder groups 1, unused. */
  readonly mendelian: Float64Array;
  /** Pairs of parents that some genet has, and how they are related. */
  readonly couples: PairTable;
  readonly relationships: Float64Array;
}

/** Progeny of parents that are inbred all through would have no variance, and A no inverse; so much is left to each. */
const LEAST_MENDELIAN = 1e-9;

/**
 * Inbreeding and Mendelian variances of all equations, without A: only relationships between the parents of some genet are
 * worked out, generation by generation, by a pass over all older parents for whichever of the two is in more couples
 * (after Sargolzaei, Iwaisaki & Colleau 2005, Journal of Animal Breeding and Genetics 122:325). Exact.
 */
export function ownRelationships(parentage: OrderedParentage, groups: FounderGroups): OwnRelationships {
  const { nodes, parents, generationStart } = parentage;
  const couples = couplesOf(parentage);
  const result: OwnRelationships = {
    inbreeding: new Float64Array(nodes),
    mendelian: new Float64Array(nodes),
    couples,
    relationships: new Float64Array(couples.count),
  };
  for (let g = 0; g < parentage.groups; g++) {
    result.inbreeding[g] = groups.kinship[g * parentage.groups + g]! - 1;
    result.mendelian[g] = 1;
  }
  const { order, start } = couplesByGeneration(couples, parentage);
  for (let l = 0; l + 1 < generationStart.length; l++) {
    const end = generationStart[l + 1]!;
    for (let i = Math.max(generationStart[l]!, parentage.groups); i < end; i++)
      describe(parentage, i, result);
    const ended = order.subarray(start[l]!, start[l + 1]!);
    if (ended.length > 0)
      relateCouples(parentage, groups, result.mendelian, couples, result.relationships, ended, end);
  }
  for (let i = parents; i < nodes; i++) describe(parentage, i, result);
  return result;
}

/**
 * a_ii and m of one equation, from the relationships among its parents; p and q are the chances of the seed and the pollen
 * side, c the chance of a self (methods/kinship.md, equations 2 and 3).
 */
function describe(parentage: OrderedParentage, i: number, result: OwnRelationships): void {
  const { nodeAt, start, parent, seed, pollen, self, groups } = parentage;
  const { inbreeding, mendelian, couples, relationships } = result;
  let pAp = 0;
  let pAq = 0;
  let qAq = 0;
  const node = nodeAt[i]!;
  const first = start[node]!;
  const end = start[node + 1]!;
  for (let e = first; e < end; e++) {
    const d = parent[e]!;
    const p = seed[e]!;
    const q = pollen[e]!;
    const a = 1 + inbreeding[d]!;
    pAp += p * p * a;
    pAq += p * q * a;
    qAq += q * q * a;
    for (let f = e + 1; f < end; f++) {
      const a2 = relationships[couples.numberOf(d, parent[f]!)]!;
      pAp += 2 * p * seed[f]! * a2;
      pAq += (p * pollen[f]! + q * seed[f]!) * a2;
      qAq += 2 * q * pollen[f]! * a2;
    }
  }
  let beyond = 0;
  if (self[node]! > 0) {
    let selfed = 1;
    for (let e = first; e < end; e++) {
      const d = parent[e]!;
      selfed += seed[e]! * (d < groups ? 0.5 * (1 + inbreeding[d]!) : inbreeding[d]!);
    }
    beyond = self[node]! * (selfed - pAp);
  }
  inbreeding[i] = 0.5 * (pAq + beyond);
  mendelian[i] = Math.max(1 - 0.25 * (pAp + qAq) + 0.5 * beyond, LEAST_MENDELIAN);
}
