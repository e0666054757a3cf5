import type { SparseSymmetric } from '@keelrow/quant';
import type { OrderedParentage } from './ancestral-order.ts';
import { type SortedCouples, sortCouples } from './couples.ts';
import type { FounderGroups } from './founder-groups.ts';
import type { OwnRelationships } from './inbreeding.ts';
import type { PairTable } from './pair-table.ts';

/**
 * A⁻¹ = Σᵢ v v' / mᵢ with v 1 at i and −w at its parents (Henderson 1976, Biometrics 32:69; with several possible parents
 * Famula 1992, Journal of Animal Science 70:1045); founder groups add Γ⁻¹ (Legarra and others 2015, Genetics 200:455).
 *
 * Who is no parent takes a column of its own, so only the block among parents needs sums.
 */
export function inverseRelationship(
  parentage: OrderedParentage,
  groups: FounderGroups,
  { mendelian, couples }: OwnRelationships,
): SparseSymmetric {
  const { nodes, parents, nodeAt, start, parent, seed, pollen } = parentage;
  const diagonal = new Float64Array(parents);
  const products = new Float64Array(couples.table.count);
  let couple = 0;
  for (let i = parentage.groups; i < nodes; i++) {
    const precision = 1 / mendelian[i]!;
    const end = start[nodeAt[i]! + 1]!;
    if (i < parents) diagonal[i] = diagonal[i]! + precision;
    for (let e = start[nodeAt[i]!]!; e < end; e++) {
      const weight = 0.5 * (seed[e]! + pollen[e]!);
      const d = parent[e]!;
      diagonal[d] = diagonal[d]! + weight * weight * precision;
      for (let f = e + 1; f < end; f++) {
        const k = couples.met[couple++]!;
        products[k] = products[k]! + 0.5 * (seed[f]! + pollen[f]!) * weight * precision;
      }
    }
  }
  const most = nodes + start[nodes]! + couples.table.count + parentage.groups * parentage.groups;
  const inverse = {
    size: nodes,
    columnStart: new Int32Array(nodes + 1),
    rowIndex: new Int32Array(most),
    values: new Float64Array(most),
  };
  columnsOfParents(parentage, groups, mendelian, { diagonal, products }, couples.table, inverse);
  const used = columnsOfOthers(parentage, mendelian, inverse);
  return {
    ...inverse,
    rowIndex: inverse.rowIndex.subarray(0, used),
    values: inverse.values.subarray(0, used),
  };
}

/**
 * The columns of parents: sums over the progeny of couples, and what each has with its own parents (of a founder group: with
 * the groups before it). Both lists ascend by row, so they are merged.
 */
function columnsOfParents(
  { parents, groups, ancestors: { start, parent, weight } }: OrderedParentage,
  founders: FounderGroups,
  mendelian: Float64Array,
  sums: { readonly diagonal: Float64Array; readonly products: Float64Array },
  couples: PairTable,
  { columnStart, rowIndex, values }: SparseSymmetric,
): void {
  const { order, start: coupleStart } = couplesByColumn(couples, parents);
  let to = 0;
  for (let i = 0; i < parents; i++) {
    const isGroup = i < groups;
    let own = isGroup ? 0 : start[i]!;
    const ownEnd = isGroup ? i : start[i + 1]!;
    const ownRow = () => (isGroup ? own : parent[own]!);
    const ownValue = () => (isGroup ? founders.inverse[i * groups + own]! : -weight[own]! / mendelian[i]!);
    for (let k = coupleStart[i]!; k < coupleStart[i + 1]!; k++) {
      const row = couples.low(order[k]!);
      for (; own < ownEnd && ownRow() < row; own++) {
        rowIndex[to] = ownRow();
        values[to++] = ownValue();
      }
      rowIndex[to] = row;
      values[to] = sums.products[order[k]!]!;
      if (own < ownEnd && ownRow() === row) {
        values[to] = values[to]! + ownValue();
        own++;
      }
      to++;
    }
    for (; own < ownEnd; own++) {
      rowIndex[to] = ownRow();
      values[to++] = ownValue();
    }
    rowIndex[to] = i;
    values[to++] = isGroup ? sums.diagonal[i]! + founders.inverse[i * groups + i]! : sums.diagonal[i]!;
    columnStart[i + 1] = to;
  }
}

/** Couples by the younger of the two, and among these by the older. */
function couplesByColumn(couples: PairTable, parents: number): SortedCouples {
  const byLow = sortCouples(couples.count, parents, (k) => couples.low(k)).order;
  return sortCouples(byLow, parents, (k) => couples.high(k));
}

/** A column for each of those that are no parents; returns the number of entries of the whole inverse. */
function columnsOfOthers(
  { nodes, parents, nodeAt, start, parent, seed, pollen }: OrderedParentage,
  mendelian: Float64Array,
  { columnStart, rowIndex, values }: SparseSymmetric,
): number {
  let to = columnStart[parents]!;
  for (let i = parents; i < nodes; i++) {
    const precision = 1 / mendelian[i]!;
    const node = nodeAt[i]!;
    for (let e = start[node]!; e < start[node + 1]!; e++) {
      rowIndex[to] = parent[e]!;
      values[to++] = -0.5 * (seed[e]! + pollen[e]!) * precision;
    }
    rowIndex[to] = i;
    values[to++] = precision;
    columnStart[i + 1] = to;
  }
  return to;
}
