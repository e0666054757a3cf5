import { type Derivatives, derivatives } from './derivatives.ts';
import type { Design } from './design.ts';
import { assemble, type Equations } from './equations.ts';
import { inseparable, requireFreeVariance } from './estimability.ts';
import { type Evaluation, evaluate, evaluationRoom } from './evaluation.ts';
import type { FitControl } from './model.ts';
import { FitCancelledError, ModelError } from './model-error.ts';
import { solveAmong } from './small-systems.ts';

/** Twice the gain in log-likelihood that one more step promises, below which the search ends. */
const CONVERGED_BELOW = 1e-10;
/** The same, where no step raises the likelihood any more: what is left is rounding. */
const NEARLY_CONVERGED_BELOW = 1e-5;
/** Steps in a row that may be made while the information is singular. */
const MOST_BLIND = 4;
/** Least share of the residual variance that a variance is taken to during the search. */
const FLOOR = 1e-8;
/** Least share of the variance left by the fixed terms that a residual may have; likewise once the search gets stuck. */
const RESIDUAL_FLOOR = 1e-7;
const SMALL_RESIDUAL = 1e-2;
const HALVINGS = 8;
/** Share of the log-likelihood that is taken for rounding. */
const ROUNDING = 1e-12;
/** Least share of itself that one average information step leaves of a variance. */
const MOST_SHRINKING = 0.05;

/** Variances found for a design, with all that was computed at them. */
export interface RemlFit {
  readonly design: Design;
  readonly equations: Equations;
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
 */
export function maximise(design: Design, start: RemlStart, control: FitControl): RemlFit {
  const equations = assemble(design);
  const room = evaluationRoom(equations);
  const rescale = !start.held.includes(true);
  const names = [...design.terms.map((term) => term.name), 'residual'];
  const last = names.length - 1;
  const free = names.map((_, i) => i).filter((i) => !start.held[i]);
  const evaluateAt = (variances: Float64Array): Evaluation =>
    evaluate(design, equations, room, variances, rescale);

  let current = evaluateAt(start.variances);
  let slope = derivatives(design, equations, current);
  let iterations = start.iterations;
  let converged = free.length === 0;
  let blind = 0;
  const most = control.maxIterations ?? 100;
  design.terms.forEach((term, t) => {
    if (!start.held[t]) requireFreeVariance(term, slope.undetermined[t]!);
  });

  while (!converged && iterations < most) {
    if (control.isCancelled?.()) throw new FitCancelledError();
    const floors = floorsAt(current.variances, last);
    const moving = free.filter((i) => current.variances[i]! > floors[i]! * 1.001 || slope.score[i]! > 0);
    const step = solveAmong(slope.information, names.length, moving, slope.score);
    const gain = step
      ? moving.reduce((sum, i) => sum + slope.score[i]! * step[i]!, 0)
      : Number.POSITIVE_INFINITY;
    if (gain < CONVERGED_BELOW) {
      converged = true;
      break;
    }
    blind = step ? 0 : blind + 1;
    if (blind > MOST_BLIND) {
      requireResidual(design, current, start.held[last] === true, SMALL_RESIDUAL);
      throw inseparable(names, moving, slope.information);
    }
    iterations++;
    const next = improved(current, slope, design, { step, moving, free, floors }, evaluateAt);
    if (!next) {
      // No step raises the likelihood any more: the search stands on the summit as far as rounding lets it see.
      current = evaluateAt(current.variances);
      converged = gain < NEARLY_CONVERGED_BELOW;
      break;
    }
    current = next;
    slope = derivatives(design, equations, current, slope.inverse);
    control.onProgress?.({
      iteration: iterations,
      logLikelihood: current.logLikelihood,
      variances: names.map((term, i) => ({ term, estimate: current.variances[i]! })),
    });
    requireResidual(design, current, start.held[last] === true, RESIDUAL_FLOOR);
  }
  const floors = floorsAt(current.variances, last);
  const atBound = names.filter(
    (_, i) => i < last && !start.held[i] && current.variances[i]! <= floors[i]! * 1.001,
  );
  return { design, equations, evaluation: current, derivatives: slope, converged, iterations, atBound };
}

interface Proposal {
  readonly step: Float64Array | null;
  readonly moving: readonly number[];
  readonly free: readonly number[];
  readonly floors: Float64Array;
}

/** The first of: a bounded AI step, its halves, an EM step, that raises the likelihood; null when none does. */
function improved(
  current: Evaluation,
  slope: Derivatives,
  design: Design,
  proposal: Proposal,
  evaluateAt: (variances: Float64Array) => Evaluation,
): Evaluation | null {
  const { step, moving, free, floors } = proposal;
  // Near the summit gains drown in rounding; a step that loses no more than that is as good as one that gains.
  const least = current.logLikelihood - ROUNDING * Math.abs(current.logLikelihood);
  const raises = (next: Evaluation): boolean => next.logLikelihood > least;
  if (step) {
    const target = boundedTarget(current.variances, slope, { step, moving, free, floors });
    for (let halving = 0, share = 1; halving < HALVINGS; halving++, share /= 2) {
      const variances = current.variances.map((v, i) => v + share * (target[i]! - v));
      const next = evaluateAt(variances);
      if (raises(next)) return next;
    }
  }
  const next = evaluateAt(emTarget(current, slope, design, free, floors));
  return raises(next) ? next : null;
}

/** Where the AI step leads when variances that would pass their floor stop there and the others take that into account. */
function boundedTarget(variances: Float64Array, slope: Derivatives, proposal: Proposal): Float64Array {
  // A variance shrinks at most so much at a time: a first step from rough values often points far below zero.
  const lowest = variances.map((v, i) => Math.max(proposal.floors[i]!, v * MOST_SHRINKING));
  const size = variances.length;
  const target = variances.slice();
  let moving = proposal.moving;
  let step: Float64Array | null = proposal.step;
  const stopped: number[] = [];
  while (step) {
    const taken: Float64Array = step;
    const passing = moving.filter((i) => variances[i]! + taken[i]! < lowest[i]!);
    for (const i of moving) target[i] = Math.max(lowest[i]!, variances[i]! + taken[i]!);
    if (passing.length === 0) break;
    stopped.push(...passing);
    moving = moving.filter((i) => !passing.includes(i));
    if (moving.length === 0) break;
    const score = slope.score.slice();
    for (const i of moving) {
      for (const k of stopped) {
        score[i] = score[i]! - slope.information[i * size + k]! * (lowest[k]! - variances[k]!);
      }
    }
    step = solveAmong(slope.information, size, moving, score);
  }
  return target;
}

/** One step of the EM algorithm (line 12). */
function emTarget(
  current: Evaluation,
  slope: Derivatives,
  design: Design,
  free: readonly number[],
  floors: Float64Array,
): Float64Array {
  const { terms, records, fixed } = design;
  const target = current.variances.slice();
  let determined = fixed.length;
  terms.forEach((term, t) => {
    determined += term.size - slope.undetermined[t]!;
    target[t] = (current.penalties[t]! + current.variances[t]! * slope.undetermined[t]!) / term.size;
  });
  const last = terms.length;
  target[last] = (current.errorSquares + current.variances[last]! * determined) / records;
  return target.map((v, i) => (free.includes(i) ? Math.max(floors[i]!, v) : current.variances[i]!));
}

function floorsAt(variances: Float64Array, last: number): Float64Array {
  const residual = variances[last]!;
  return variances.map((_, i) => (i === last ? 0 : FLOOR * residual));
}

function requireResidual(design: Design, evaluation: Evaluation, held: boolean, least: number): void {
  const residual = evaluation.variances[design.terms.length]!;
  if (held || residual > least * design.leastSquares.variance) return;
  throw new ModelError(
    'the random terms explain every row without remainder, so there is no residual variance',
    'Leave out the random term whose levels name single rows, or look whether rows were copied',
  );
}
