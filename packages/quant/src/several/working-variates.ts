import type { Component, Element } from './covariances.ts';
import type { JointSolution } from './joint-solution.ts';
import type { Layout } from './layout.ts';
import { precisionTimes } from './residual-precision.ts';

/**
 * q = ∂V P y for each element of the covariance matrices: where the element ties traits a and b, rows of a get what stands
 * for b in G⁻¹u (or in R₀⁻¹ of the residuals of their occasion), rows of b what stands for a.
 */
export function workingVariates(
  layout: Layout,
  components: readonly Component[],
  joint: JointSolution,
  elements: readonly Element[],
): Float64Array[] {
  const precise = precisionTimes(layout, joint.inverses.at(-1)!, joint.residuals);
  return elements.map(({ component, a, b }) =>
    component < layout.terms.length
      ? ofTerm(layout, component, joint, a, b)
      : ofResidual(layout, components[component]!.traits[a]!, components[component]!.traits[b]!, precise),
  );
}

function ofTerm(
  layout: Layout,
  component: number,
  { inverses, solution }: JointSolution,
  a: number,
  b: number,
): Float64Array {
  const { w, traitOfRow } = layout;
  const { offset, size, traits } = layout.terms[component]!;
  const k = traits.length;
  const end = offset + size * k;
  const { inverse } = inverses[component]![0]!;
  const partnerOf = new Int32Array(layout.names.length).fill(-1);
  partnerOf[traits[a]!] = b;
  partnerOf[traits[b]!] = a;
  const q = new Float64Array(w.count);
  for (let row = 0; row < w.count; row++) {
    const partner = partnerOf[traitOfRow[row]!]!;
    if (partner < 0) continue;
    for (let e = w.start[row]!; e < w.start[row + 1]!; e++) {
      const c = w.column[e]!;
      if (c < offset || c >= end) continue;
      const first = offset + Math.floor((c - offset) / k) * k;
      let sum = 0;
      for (let t = 0; t < k; t++) sum += inverse[partner * k + t]! * solution[first + t]!;
      q[row] = q[row]! + w.value[e]! * sum;
    }
  }
  return q;
}

/** With R = √w⁻¹ R₀ √w⁻¹, the row of trait s gets (R⁻¹e of the row of trait t) / √(wₛ wₜ). */
function ofResidual(layout: Layout, s: number, t: number, precise: Float64Array): Float64Array {
  const { occasions, traitOfRow, rootWeights } = layout;
  const q = new Float64Array(precise.length);
  for (let row = 0; row < q.length; row++) {
    const trait = traitOfRow[row]!;
    if (trait !== s && trait !== t) continue;
    const wanted = trait === s ? t : s;
    const block = occasions.blockOfRow[row]!;
    for (let m = occasions.start[block]!; m < occasions.start[block + 1]!; m++) {
      const other = occasions.member[m]!;
      if (traitOfRow[other] === wanted) q[row] = precise[other]! / (rootWeights[row]! * rootWeights[other]!);
    }
  }
  return q;
}
