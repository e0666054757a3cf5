import type { OrderedParentage } from './ancestral-order.ts';
import { type Couples, couplesByGeneration, couplesOf } from './couples.ts';
import { ABREAST } from './eight-passes.ts';
import type { FounderGroups } from './founder-groups.ts';
import { type KinshipProgress, passCounter } from './kinship-progress.ts';
import { relateCouples } from './relate-couples.ts';

/** What each equation has of its own. */
export interface OwnRelationships {
  /** F = a_ii − 1; of a founder group γ − 1. */
  readonly inbreeding: Float64Array;
  /** m: variance of an additive effect that the parents do not explain, per unit of variance. Of founder groups 1, unused. */
  readonly mendelian: Float64Array;
  /** Pairs of parents that some genet has, and how they are related. */
  readonly couples: Couples;
  readonly relationships: Float64Array;
}

/** Progeny of parents that are inbred all through would have no variance, and A no inverse; so much is left to each. */
const LEAST_MENDELIAN = 1e-9;

/**
 * Inbreeding and Mendelian variances of all equations, without A: only relationships between the parents of some genet are
 * worked out, generation by generation, by a pass over all older parents for whichever of the two is in more couples
 * (after Sargolzaei, Iwaisaki & Colleau 2005, Journal of Animal Breeding and Genetics 122:325). Exact.
 */
export function ownRelationships(
  parentage: OrderedParentage,
  groups: FounderGroups,
  onProgress?: KinshipProgress,
): OwnRelationships {
  const { nodes, parents, generationStart } = parentage;
  const couples = couplesOf(parentage);
  const result: OwnRelationships = {
    inbreeding: new Float64Array(nodes),
    mendelian: new Float64Array(nodes),
    couples,
    relationships: new Float64Array(couples.table.count),
  };
  for (let g = 0; g < parentage.groups; g++) {
    result.inbreeding[g] = groups.kinship[g * parentage.groups + g]! - 1;
    result.mendelian[g] = 1;
  }
  const { order, start } = couplesByGeneration(couples.table, parentage);
  const generations = Array.from({ length: generationStart.length - 1 }, (_, l) => ({
    due: order.subarray(start[l]!, start[l + 1]!),
    end: generationStart[l + 1]!,
  }));
  const room = {
    vectors: new Float64Array(ABREAST * parents),
    onPass: onProgress && passCounter(couples.table, generations, onProgress),
  };
  let met = 0;
  for (const [l, { due, end }] of generations.entries()) {
    met = describe(parentage, Math.max(generationStart[l]!, parentage.groups), end, met, result);
    if (due.length > 0)
      relateCouples(parentage, groups, result.mendelian, couples.table, result.relationships, due, end, room);
  }
  describe(parentage, parents, nodes, met, result);
  return result;
}

/**
 * a_ii and m of the equations from … upTo - 1, from the relationships among their parents; p and q are the chances of the
 * seed and the pollen side, c the chance of a self (methods/kinship.md, equations 2 and 3).
 *
 * @param met where the couples of equation `from` begin among those met
 * @returns where those of equation `upTo` begin
 */
function describe(
  { nodeAt, start, parent, seed, pollen, self, groups }: OrderedParentage,
  from: number,
  upTo: number,
  met: number,
  { inbreeding, mendelian, couples, relationships }: OwnRelationships,
): number {
  let couple = met;
  for (let i = from; i < upTo; i++) {
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
        const a2 = relationships[couples.met[couple++]!]!;
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
  return couple;
}
