import { residualsOf, transposedProduct } from '../mixed/sparse-rows.ts';
import { type CholeskyFactor, factorise } from '../sparse/cholesky.ts';
import { solve } from '../sparse/solve.ts';
import type { SymbolicFactor } from '../sparse/symbolic.ts';
import { type Component, groupInverses } from './covariances.ts';
import type { Layout } from './layout.ts';
import { precisionTimes, residualSquares } from './residual-precision.ts';
import type { SmallInverse } from './small-matrix.ts';
import { termSquares } from './term-squares.ts';

/** The equations of several traits solved at given covariance matrices. */
export interface JointSolution {
  /** Of the components, on the scale of the layout. */
  readonly matrices: readonly Float64Array[];
  /** Inverses of these within each group of each component. */
  readonly inverses: readonly (readonly SmallInverse[])[];
  readonly factor: CholeskyFactor;
  readonly solution: Float64Array;
  readonly residuals: Float64Array;
  /** For each group of each component the squares and products of its effects, u'K⁻¹u, or of its residuals. */
  readonly squares: readonly (readonly Float64Array[])[];
  /** In the units of the responses. */
  readonly logLikelihood: number;
}

/**
 * Solves (W'R⁻¹W + G⁻¹) s = W'R⁻¹y; docs/methods/several-traits.md, lines (3) to (5).
 *
 * @param valuesOf fills in the values of the equations for the inverses
 * @returns null where a matrix is not positive definite
 * @throws NotPositiveDefiniteError where the equations are singular
 */
export function solveJointly(
  layout: Layout,
  components: readonly Component[],
  symbolic: SymbolicFactor,
  matrices: readonly Float64Array[],
  valuesOf: (inverses: readonly (readonly SmallInverse[])[]) => Float64Array,
  panels?: Float64Array,
): JointSolution | null {
  const inverses: SmallInverse[][] = [];
  for (let c = 0; c < components.length; c++) {
    const found = groupInverses(components[c]!, matrices[c]!);
    if (!found) return null;
    inverses.push(found);
  }
  const { w, y } = layout;
  const factor = factorise(symbolic, valuesOf(inverses), panels);
  const ones = new Float64Array(w.count).fill(1);
  const solution = transposedProduct(w, ones, precisionTimes(layout, inverses.at(-1)!, y));
  solve(factor, solution);
  const residuals = residualsOf(w, y, solution);
  const squares = [
    ...layout.terms.map((term) => [termSquares(term, solution)]),
    residualSquares(layout, residuals),
  ];
  const logLikelihood = likelihood(layout, components, inverses, squares, factor.logDeterminant);
  return { matrices, inverses, factor, solution, residuals, squares, logLikelihood };
}

/** docs/methods/several-traits.md, line (5). */
function likelihood(
  layout: Layout,
  components: readonly Component[],
  inverses: readonly (readonly SmallInverse[])[],
  squares: readonly (readonly Float64Array[])[],
  logDeterminantOfEquations: number,
): number {
  let logDeterminants = logDeterminantOfEquations;
  let quadratic = 0;
  components.forEach(({ groups }, c) => {
    groups.forEach(({ count }, g) => {
      const { inverse, logDeterminant } = inverses[c]![g]!;
      logDeterminants += count * logDeterminant;
      inverse.forEach((value, e) => {
        quadratic += value * squares[c]![g]![e]!;
      });
    });
  });
  for (const term of layout.terms) logDeterminants += term.traits.length * term.logDeterminant;
  for (const root of layout.rootWeights) logDeterminants -= 2 * Math.log(root);
  let degrees = 0;
  layout.designs.forEach(({ records, fixed }, t) => {
    degrees += records - fixed.length;
    logDeterminants += 2 * (records - fixed.length) * Math.log(layout.scales[t]!);
    for (const column of fixed) logDeterminants += 2 * Math.log(column.scale);
  });
  return -0.5 * (degrees * Math.log(2 * Math.PI) + logDeterminants + quadratic);
}
