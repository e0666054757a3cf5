import { residualsOf, transposedProduct } from '../mixed/sparse-rows.ts';
import { selectedInverse } from '../sparse/selected-inverse.ts';
import { solveMany } from '../sparse/solve-many.ts';
import type { Component, Element } from './covariances.ts';
import { groupTraces, type JointEquations, pairsOf } from './joint-equations.ts';
import type { JointSolution } from './joint-solution.ts';
import type { Layout } from './layout.ts';
import { precisionTimes } from './residual-precision.ts';
import { product } from './small-matrix.ts';
import { workingVariates } from './working-variates.ts';

/** Slopes of the log-likelihood in all elements of all covariance matrices, and what goes with them. */
export interface JointDerivatives {
  readonly elements: readonly Element[];
  readonly score: Float64Array;
  /** Average information, elements × elements row by row. */
  readonly information: Float64Array;
  /** tr(P ∂V). */
  readonly traces: Float64Array;
  /** For each group of each component its squares plus what its effects or residuals are uncertain by. */
  readonly moments: readonly (readonly Float64Array[])[];
  /** Room of the selected inverse, for the next time. */
  readonly inverse: Float64Array;
}

/** Score and average information of REML; docs/methods/several-traits.md, lines (6) and (7). */
export function jointDerivatives(
  layout: Layout,
  components: readonly Component[],
  equations: JointEquations,
  joint: JointSolution,
  reuse?: Float64Array,
): JointDerivatives {
  const inverse = selectedInverse(joint.factor, reuse);
  const elements = components.flatMap(({ traits }, component) =>
    pairsOf(traits.length).map(([a, b]) => ({ component, a, b })),
  );
  const score = new Float64Array(elements.length);
  const traces = new Float64Array(elements.length);
  const moments = components.map(({ groups }, c) =>
    groups.map((group, g) => {
      const n = group.traits.length;
      const phi = joint.inverses[c]![g]!.inverse;
      const squares = joint.squares[c]![g]!;
      const uncertain = groupTraces(equations, c, g, inverse);
      const around = (middle: Float64Array) => product(product(phi, middle, n), phi, n);
      const fitted = around(squares);
      const lost = around(uncertain);
      elements.forEach(({ component, a, b }, k) => {
        const i = group.traits.indexOf(a);
        const j = group.traits.indexOf(b);
        if (component !== c || i < 0 || j < 0) return;
        const times = i === j ? 1 : 2;
        const trace = times * (group.count * phi[i * n + j]! - lost[i * n + j]!);
        traces[k] = traces[k]! + trace;
        score[k] = score[k]! - 0.5 * (trace - times * fitted[i * n + j]!);
      });
      return squares.map((value, e) => value + uncertain[e]!);
    }),
  );
  const information = averageInformation(layout, components, joint, elements);
  return { elements, score, information, traces, moments, inverse };
}

/** ½ q' P q with the working variates q = ∂V P y (Gilmour, Thompson & Cullis 1995; Johnson & Thompson 1995). */
function averageInformation(
  layout: Layout,
  components: readonly Component[],
  joint: JointSolution,
  elements: readonly Element[],
): Float64Array {
  const { w } = layout;
  const ones = new Float64Array(w.count).fill(1);
  const residual = joint.inverses.at(-1)!;
  const working = workingVariates(layout, components, joint, elements);
  const information = new Float64Array(elements.length ** 2);
  const solved = working.map((q) => transposedProduct(w, ones, precisionTimes(layout, residual, q)));
  solveMany(joint.factor, solved);
  working.forEach((q, i) => {
    const pq = precisionTimes(layout, residual, residualsOf(w, q, solved[i]!));
    for (let k = 0; k <= i; k++) {
      let sum = 0;
      const other = working[k]!;
      for (let r = 0; r < pq.length; r++) sum += pq[r]! * other[r]!;
      information[i * elements.length + k] = 0.5 * sum;
      information[k * elements.length + i] = 0.5 * sum;
    }
  });
  return information;
}
