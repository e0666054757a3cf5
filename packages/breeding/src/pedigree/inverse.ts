import { type SparseSymmetric, symmetricFromEntries } from '@keelrow/quant';
import type { OrderedParentage } from './ancestral-order.ts';
import type { FounderGroups } from './founder-groups.ts';
import type { OwnRelationships } from './inbreeding.ts';

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
  const products = new Float64Array(couples.count);
  for (let i = parentage.groups; i < nodes; i++) {
    const precision = 1 / mendelian[i]!;
    const end = start[nodeAt[i]! + 1]!;
    if (i < parents) diagonal[i] = diagonal[i]! + precision;
    for (let e = start[nodeAt[i]!]!; e < end; e++) {
      const weight = 0.5 * (seed[e]! + pollen[e]!);
      const d = parent[e]!;
      diagonal[d] = diagonal[d]! + weight * weight * precision;
      for (let f = e + 1; f < end; f++) {
        const k = couples.numberOf(d, parent[f]!);
        products[k] = products[k]! + 0.5 * (seed[f]! + pollen[f]!) * weight * precision;
      }
    }
  }
  const among = amongParents(parentage, groups, mendelian, { diagonal, products }, couples);
  return withProgeny(parentage, among, mendelian);
}

function amongParents(
  { parents, groups, ancestors: { start, parent, weight } }: OrderedParentage,
  founders: FounderGroups,
  mendelian: Float64Array,
  sums: { readonly diagonal: Float64Array; readonly products: Float64Array },
  couples: OwnRelationships['couples'],
): SparseSymmetric {
  const most = parents + couples.count + start[parents]! + (groups * (groups + 1)) / 2;
  const rows = new Int32Array(most);
  const columns = new Int32Array(most);
  const values = new Float64Array(most);
  let count = 0;
  const put = (row: number, column: number, value: number) => {
    rows[count] = row;
    columns[count] = column;
    values[count++] = value;
  };
  for (let i = 0; i < parents; i++) put(i, i, sums.diagonal[i]!);
  for (let k = 0; k < couples.count; k++) put(couples.low[k]!, couples.high[k]!, sums.products[k]!);
  for (let i = 0; i < parents; i++)
    for (let e = start[i]!; e < start[i + 1]!; e++) put(parent[e]!, i, -weight[e]! / mendelian[i]!);
  for (let g = 0; g < groups; g++) for (let h = 0; h <= g; h++) put(h, g, founders.inverse[g * groups + h]!);
  return symmetricFromEntries(parents, rows, columns, values);
}

/** The whole inverse: the block among parents, then a column for each of the others. */
function withProgeny(
  { nodes, parents, nodeAt, start, parent, seed, pollen, ancestors }: OrderedParentage,
  among: SparseSymmetric,
  mendelian: Float64Array,
): SparseSymmetric {
  const size = among.values.length + (start[nodes]! - ancestors.parent.length) + (nodes - parents);
  const columnStart = new Int32Array(nodes + 1);
  const rowIndex = new Int32Array(size);
  const values = new Float64Array(size);
  columnStart.set(among.columnStart);
  rowIndex.set(among.rowIndex);
  values.set(among.values);
  let to = among.values.length;
  for (let i = parents; i < nodes; i++) {
    const precision = 1 / mendelian[i]!;
    for (let e = start[nodeAt[i]!]!; e < start[nodeAt[i]! + 1]!; e++) {
      rowIndex[to] = parent[e]!;
      values[to++] = -0.5 * (seed[e]! + pollen[e]!) * precision;
    }
    rowIndex[to] = i;
    values[to++] = precision;
    columnStart[i + 1] = to;
  }
  return { size: nodes, columnStart, rowIndex, values };
}
