import { type Design, readDesign, withoutTerms } from '../mixed/design.ts';
import { FitCancelledError, ModelError } from '../mixed/model-error.ts';
import { NotPositiveDefiniteError } from '../sparse/cholesky.ts';
import { selectedInverse } from '../sparse/selected-inverse.ts';
import { analyse, FactorTooLargeError } from '../sparse/symbolic.ts';
import { type Covariances, componentsOf, scaledMatrices } from './covariances.ts';
import { jointPattern } from './joint-pattern.ts';
import { type JointSolution, solveJointly } from './joint-solution.ts';
import { addRowPairs, ridgePart } from './joint-values.ts';
import { type Layout, layOut, ofTrait } from './layout.ts';
import { type SolvedSeveral, solvedSeveral } from './solved-several.ts';
import type { SeveralControl, TraitTable } from './trait-table.ts';

/**
 * Solves the mixed model equations of several traits at given covariance matrices.
 *
 * A term is left out of a trait in which its variance is 0.
 *
 * @param covariances for each random term and for `residual` a matrix traits × traits, in the units of the responses
 * @param summed terms whose effects will be asked for as sums of each level
 * @throws ModelError for tables, models or matrices that cannot be solved; FitCancelledError when stopped
 */
export function solveSeveral(
  traits: readonly TraitTable[],
  covariances: Covariances,
  summed: readonly string[],
  control: SeveralControl = {},
): SolvedSeveral {
  const pause = (): void => {
    if (control.isCancelled?.()) throw new FitCancelledError();
  };
  const whole = traits.map(designOf);
  const layout = layOut(
    traits,
    whole.map((design, t) => withoutZeros(design, t, traits.length, covariances)),
  );
  const components = componentsOf(layout);
  const matrices = scaledMatrices(layout, components, covariances);
  pause();
  try {
    const pattern = jointPattern(layout, summed);
    const symbolic = analyse(pattern);
    pause();
    const solution = solveJointly(layout, components, symbolic, matrices, (inverses) => {
      const values = new Float64Array(pattern.rowIndex.length);
      const residual = inverses.at(-1)!;
      addRowPairs(layout, pattern, (p, a, b) => ({
        into: values,
        factor: residual[p]!.inverse[a * layout.occasions.patterns[p]!.length + b]!,
      }));
      layout.terms.forEach((term, c) => {
        const k = term.traits.length;
        for (let a = 0; a < k; a++) {
          for (let b = a; b < k; b++) {
            const factor = inverses[c]![0]!.inverse[a * k + b]!;
            const { at, value } = ridgePart(term, pattern, a, b);
            for (let e = 0; e < at.length; e++) values[at[e]!] = values[at[e]!]! + factor * value[e]!;
          }
        }
      });
      return values;
    });
    pause();
    const solved = required(solution);
    return solvedSeveral({ layout, joint: solved, inverse: selectedInverse(solved.factor), whole });
  } catch (error) {
    throw asModelError(error, layout);
  }
}

function designOf(trait: TraitTable): Design {
  try {
    return readDesign(trait.table, trait.model);
  } catch (error) {
    throw error instanceof ModelError ? ofTrait(trait.name, error) : error;
  }
}

/** A trait's design without the terms in which its variance is 0. */
function withoutZeros(design: Design, t: number, count: number, covariances: Covariances): Design {
  const none = design.terms.filter(({ name }) => covariances.get(name)?.[t * count + t] === 0);
  return none.length === 0 ? design : withoutTerms(design, new Set(none.map(({ name }) => name)));
}

function required(solution: JointSolution | null): JointSolution {
  if (solution) return solution;
  throw new ModelError(
    'the residual covariances are not positive definite',
    'Bend the matrix before solving with it',
  );
}

/** What the numerics say, in words; other errors as they are. */
export function asModelError(error: unknown, layout: Layout): unknown {
  if (error instanceof NotPositiveDefiniteError) {
    return new ModelError(
      'the covariances are so far apart that the equations of the traits cannot be solved together',
      'Look whether the matrices are in the units of the traits',
    );
  }
  if (error instanceof FactorTooLargeError || error instanceof RangeError) {
    return new ModelError(
      `the ${layout.names.length} traits together have ${layout.w.width} equations, whose solution needs more memory than there is`,
      'Take fewer traits at once, or fewer rows',
    );
  }
  return error;
}
