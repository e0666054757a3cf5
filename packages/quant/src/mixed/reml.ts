import { NotPositiveDefiniteError } from '../sparse/cholesky.ts';
import { FactorTooLargeError } from '../sparse/symbolic.ts';
import { type Derivatives, derivatives } from './derivatives.ts';
import type { Design } from './design.ts';
import { assemble, type Equations } from './equations.ts';
import {
  requireFreeVariance,
  requireResidual,
  requireSeparated,
  requireSolved,
  tooLarge,
} from './estimability.ts';
import { type Evaluation, type EvaluationRoom, evaluate, evaluationRoom } from './evaluation.ts';
import type { FitControl } from './model.ts';
import { FitCancelledError } from './model-error.ts';
import { atFloor, boundedStep, emTarget, type Step } from './step.ts';

/** Twice the gain in log-likelihood that one more step promises, below which the search ends. */
const CONVERGED_BELOW = 1e-9;
/** The same, where no step raises the likelihood any more: what is left is rounding. */
const NEARLY_CONVERGED_BELOW = 1e-6;
const HALVINGS = 8;
/** Share of the log-likelihood that is taken for rounding. */
const ROUNDING = 1e-12;

/** Variances found for a design, with all that was computed at them. */
export interface RemlFit {
  readonly design: Design;
  readonly equations: Equations;
  /** Room that the evaluation stands in. */
  readonly room: EvaluationRoom;
  readonly evaluation: Evaluation;
  readonly derivatives: Derivatives;
  readonly converged: boolean;
  readonly iterations: number;
  /** Terms whose variance lies at its lower bound. */
  readonly atBound: readonly string[];
}

/** Where a search starts and what it must leave alone. */
export interface RemlStart {
  /** Of the terms in their order, the residual last. */
  readonly variances: Float64Array;
  /** Which of these are held. */
  readonly held: readonly boolean[];
  /** Iterations made before. */
  readonly iterations: number;
}

/**
 * Restricted maximum likelihood (H. D. Patterson and R. Thompson 1971, Biometrika 58:545-554) by average information
 * steps kept within bounds; where these do not raise the likelihood, an EM step, which always does (A. P. Dempster, N. M.
 * Laird and D. B. Rubin 1977). docs/methods/mixed-model.md, lines (7) to (12).
 *
 * @throws ModelError when the rows do not determine the variances; FitCancelledError when stopped
 */
export function maximise(design: Design, start: RemlStart, control: FitControl): RemlFit {
  const { equations, room } = prepare(design);
  const rescale = !start.held.includes(true);
  const names = [...design.terms.map((term) => term.name), 'residual'];
  const free = names.map((_, i) => i).filter((i) => !start.held[i]);
  const tryAt = (variances: Float64Array): Evaluation | null => {
    try {
      return evaluate(design, equations, room, variances, rescale);
    } catch (error) {
      if (error instanceof NotPositiveDefiniteError) return null;
      throw error;
    }
  };
  const most = control.maxIterations ?? 100;

  const pause = (): void => {
    if (control.isCancelled?.()) throw new FitCancelledError();
  };

  pause();
  let current = requireSolved(tryAt(start.variances));
  pause();
  let slope = derivatives(design, equations, current);
  let { iterations } = start;
  let converged = free.length === 0;
  design.terms.forEach((term, t) => {
    if (!start.held[t]) requireFreeVariance(term, slope.undetermined[t]!);
  });

  while (!converged) {
    const step = boundedStep(design, current, slope, free);
    converged = step !== null && step.gain < CONVERGED_BELOW;
    if (converged || iterations >= most) break;
    pause();
    iterations++;
    const em = emTarget(design, current, slope, free);
    const next = improved(current, step, em, tryAt);
    if (!next) {
      // No step raises the likelihood any more: the search stands on the summit as far as rounding lets it see.
      current = requireSolved(tryAt(current.variances));
      converged = step !== null && step.gain < NEARLY_CONVERGED_BELOW;
      break;
    }
    current = next;
    slope = derivatives(design, equations, current, slope.inverse);
    control.onProgress?.({
      iteration: iterations,
      logLikelihood: current.logLikelihood,
      variances: names.map((term, i) => ({ term, estimate: current.variances[i]! })),
    });
    requireResidual(design, current, start.held);
  }
  const inside = free.filter((i) => !atFloor(current.variances, i));
  requireSeparated(names, inside, slope.information);
  const atBound = free.filter((i) => !inside.includes(i)).map((i) => names[i]!);
  return { design, equations, room, evaluation: current, derivatives: slope, converged, iterations, atBound };
}

/** Assembles the equations and takes the room for their factor. */
function prepare(design: Design): { equations: Equations; room: EvaluationRoom } {
  try {
    const equations = assemble(design);
    return { equations, room: evaluationRoom(equations) };
  } catch (error) {
    // A RangeError here is an array that could not be had.
    if (error instanceof FactorTooLargeError || error instanceof RangeError) throw tooLarge(design);
    throw error;
  }
}

/**
 * The first of: the average information step, its halves, the EM step, that raises the likelihood; null if none does.
 * Variances at which the equations cannot be solved count as no better.
 */
function improved(
  current: Evaluation,
  step: Step | null,
  em: Float64Array,
  tryAt: (variances: Float64Array) => Evaluation | null,
): Evaluation | null {
  const better = (next: Evaluation | null, than: number): next is Evaluation =>
    next !== null && next.logLikelihood > than;
  if (step) {
    // Near the summit gains drown in rounding; a whole step that loses no more than that is as good as one that gains.
    const whole = tryAt(step.target);
    if (better(whole, current.logLikelihood - ROUNDING * Math.abs(current.logLikelihood))) return whole;
    for (let halving = 1, share = 0.5; halving < HALVINGS; halving++, share /= 2) {
      const next = tryAt(current.variances.map((v, i) => v + share * (step.target[i]! - v)));
      if (better(next, current.logLikelihood)) return next;
    }
  }
  const next = tryAt(em);
  return better(next, current.logLikelihood) ? next : null;
}
