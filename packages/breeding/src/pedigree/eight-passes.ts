import type { OrderedParentage } from './ancestral-order.ts';
import type { FounderGroups } from './founder-groups.ts';
import { timesGroupKinship } from './relationship-pass.ts';

/** Vectors that one pass takes along. */
export const ABREAST = 8;

/**
 * What timesRelationship does, for eight vectors side by side (element j of vector k is `vectors[8 * j + k]`). Reading the
 * parents once for eight sums takes less than half the time of eight passes; the sums are written out one by one because an
 * inner loop would cost most of that again.
 */
export function timesRelationshipAbreast(
  parentage: OrderedParentage,
  founders: FounderGroups,
  mendelian: Float64Array,
  vectors: Float64Array,
  from: number,
  upTo: number,
): void {
  down(parentage, mendelian, vectors, from);
  timesGroupKinship(founders, vectors, ABREAST);
  up(parentage, vectors, upTo);
}

function down(
  { ancestors: { start, parent, weight }, groups }: OrderedParentage,
  mendelian: Float64Array,
  v: Float64Array,
  from: number,
): void {
  for (let j = from; j >= groups; j--) {
    const at = ABREAST * j;
    const a = v[at]!;
    const b = v[at + 1]!;
    const c = v[at + 2]!;
    const d = v[at + 3]!;
    const e = v[at + 4]!;
    const f = v[at + 5]!;
    const g = v[at + 6]!;
    const h = v[at + 7]!;
    for (let k = start[j]!; k < start[j + 1]!; k++) {
      const p = ABREAST * parent[k]!;
      const w = weight[k]!;
      v[p] = v[p]! + w * a;
      v[p + 1] = v[p + 1]! + w * b;
      v[p + 2] = v[p + 2]! + w * c;
      v[p + 3] = v[p + 3]! + w * d;
      v[p + 4] = v[p + 4]! + w * e;
      v[p + 5] = v[p + 5]! + w * f;
      v[p + 6] = v[p + 6]! + w * g;
      v[p + 7] = v[p + 7]! + w * h;
    }
    const m = mendelian[j]!;
    v[at] = a * m;
    v[at + 1] = b * m;
    v[at + 2] = c * m;
    v[at + 3] = d * m;
    v[at + 4] = e * m;
    v[at + 5] = f * m;
    v[at + 6] = g * m;
    v[at + 7] = h * m;
  }
}

function up(
  { ancestors: { start, parent, weight }, groups }: OrderedParentage,
  v: Float64Array,
  upTo: number,
): void {
  for (let j = groups; j < upTo; j++) {
    const at = ABREAST * j;
    let a = v[at]!;
    let b = v[at + 1]!;
    let c = v[at + 2]!;
    let d = v[at + 3]!;
    let e = v[at + 4]!;
    let f = v[at + 5]!;
    let g = v[at + 6]!;
    let h = v[at + 7]!;
    for (let k = start[j]!; k < start[j + 1]!; k++) {
      const p = ABREAST * parent[k]!;
      const w = weight[k]!;
      a += w * v[p]!;
      b += w * v[p + 1]!;
      c += w * v[p + 2]!;
      d += w * v[p + 3]!;
      e += w * v[p + 4]!;
      f += w * v[p + 5]!;
      g += w * v[p + 6]!;
      h += w * v[p + 7]!;
    }
    v[at] = a;
    v[at + 1] = b;
    v[at + 2] = c;
    v[at + 3] = d;
    v[at + 4] = e;
    v[at + 5] = f;
    v[at + 6] = g;
    v[at + 7] = h;
  }
}
