import { maximiseWithin } from '../mixed/bounded-quadratic.ts';
import { FitCancelledError } from '../mixed/model-error.ts';
import { NotPositiveDefiniteError } from '../sparse/cholesky.ts';
import type { Component } from './covariances.ts';
import { emMatrices } from './em-matrices.ts';
import { type JointDerivatives, jointDerivatives } from './joint-derivatives.ts';
import { assembleJointly, type JointEquations, jointValues } from './joint-equations.ts';
import { type JointSolution, solveJointly } from './joint-solution.ts';
import type { Layout } from './layout.ts';
import type { SeveralControl } from './trait-table.ts';
import {
  matricesAt,
  type Parameter,
  type ParameterSlopes,
  parameterSlopes,
  rangesAt,
  valuesAt,
} from './two-trait-parameters.ts';

/** Twice the gain in log-likelihood that one more step promises, below which the search ends. */
const CONVERGED_BELOW = 1e-9;
/** The same, where no step raises the likelihood any more: what is left is rounding. */
const NEARLY_CONVERGED_BELOW = 1e-6;
const HALVINGS = 8;
const ROUNDING = 1e-12;
/** Where variances and a correlation go to their bounds together steps promise much and gain nothing: gains over so many steps. */
const SETTLED_BELOW = 1e-5;
const SETTLED_OVER = 5;
/** Iterations after which the length of steps is tuned. */
const PATIENCE = 8;
const MOST_TUNING = 6;
/** A correlation of which the rows tell less than this much information is none that they can tell. */
const LEAST_INFORMATION = 1e-6;

/** The summit that a search found. */
export interface TwoTraitSummit {
  readonly joint: JointSolution;
  readonly values: Float64Array;
  readonly slopes: ParameterSlopes;
  readonly startLogLikelihood: number;
  readonly converged: boolean;
  readonly iterations: number;
}

/**
 * Restricted maximum likelihood by average information steps within bounds, halved while they lower the likelihood, and EM
 * steps where halving does not help; docs/methods/several-traits.md.
 *
 * @param start values of the parameters
 * @param iterations made before
 * @returns null when the equations cannot be solved at the start
 */
export function searchTwoTraits(
  layout: Layout,
  components: readonly Component[],
  parameters: readonly Parameter[],
  start: Float64Array,
  iterations: number,
  control: SeveralControl,
): TwoTraitSummit | null {
  const equations = assembleJointly(layout, components);
  const at = solver(layout, components, parameters, equations);
  let values = start;
  let joint = at(values);
  if (!joint) return null;
  const startLogLikelihood = joint.logLikelihood;
  let slope = jointDerivatives(layout, components, equations, joint);
  let slopes = parameterSlopes(parameters, joint.matrices, slope);
  let converged = false;
  let made = 0;
  const history: number[] = [];
  for (;;) {
    const step = boundedStep(components, parameters, values, slopes);
    converged = (step !== null && step.gain < CONVERGED_BELOW) || (made > 3 * PATIENCE && settled(history));
    if (converged || iterations >= (control.maxIterations ?? 100)) break;
    if (control.isCancelled?.()) throw new FitCancelledError();
    iterations++;
    const em = emValues(components, parameters, values, joint, slope);
    const first = improved(values, joint.logLikelihood, step, em, at);
    const { low, high } = rangesAt(components, parameters, values);
    const next = first && made++ > PATIENCE ? tuned(values, first, low, high, at) : first;
    if (!next) {
      joint = at(values)!;
      converged = (step !== null && step.gain < NEARLY_CONVERGED_BELOW) || settled(history);
      break;
    }
    history.push(next.joint.logLikelihood);
    values = next.values;
    joint = next.joint;
    slope = jointDerivatives(layout, components, equations, joint, slope.inverse);
    slopes = parameterSlopes(parameters, joint.matrices, slope);
    control.onProgress?.({
      iteration: iterations,
      logLikelihood: joint.logLikelihood,
      variances: progressOf(layout, components, parameters, values),
    });
  }
  return { joint, values, slopes, startLogLikelihood, converged, iterations };
}

function settled(history: readonly number[]): boolean {
  const before = history.at(-1 - SETTLED_OVER);
  return before !== undefined && history.at(-1)! - before < SETTLED_BELOW;
}

type Solver = (values: Float64Array) => JointSolution | null;

function solver(
  layout: Layout,
  components: readonly Component[],
  parameters: readonly Parameter[],
  equations: JointEquations,
): Solver {
  const room = new Float64Array(equations.pattern.rowIndex.length);
  const panels = new Float64Array(equations.symbolic.stored);
  return (values) => {
    const matrices = matricesAt(components, parameters, values);
    const fill = (inverses: JointSolution['inverses']) => jointValues(equations, inverses, room);
    try {
      return solveJointly(layout, components, equations.symbolic, matrices, fill, panels);
    } catch (error) {
      if (error instanceof NotPositiveDefiniteError) return null;
      throw error;
    }
  };
}

interface Step {
  readonly target: Float64Array;
  readonly gain: number;
}

/** Parameters that move: those not held, but for correlations that the rows do not tell. */
export function movingParameters(
  parameters: readonly Parameter[],
  { information }: ParameterSlopes,
): number[] {
  const n = parameters.length;
  return parameters.flatMap(({ of, held }, i) => {
    const told = of !== null || information[i * n + i]! > LEAST_INFORMATION;
    return held || !told ? [] : [i];
  });
}

/** The average information step within bounds, its diagonal supported as that of one trait is. */
function boundedStep(
  components: readonly Component[],
  parameters: readonly Parameter[],
  values: Float64Array,
  slopes: ParameterSlopes,
): Step | null {
  const n = parameters.length;
  const free = movingParameters(parameters, slopes);
  const information = slopes.information.slice();
  parameters.forEach(({ component }, i) => {
    const { traits, groups } = components[component]!;
    const units = groups.reduce((sum, group) => sum + group.count, 0);
    const least = (0.5 * slopes.traces[i]! ** 2) / (traits.length * units);
    information[i * n + i] = Math.max(information[i * n + i]!, least);
  });
  const { low, high } = rangesAt(components, parameters, values);
  const change = maximiseWithin(
    information,
    n,
    free,
    slopes.score,
    low.map((bound, i) => Math.min(0, bound - values[i]!)),
    high.map((bound, i) => Math.max(0, bound - values[i]!)),
  );
  if (!change) return null;
  let gain = 0;
  for (const i of free) {
    let curved = 0;
    for (const k of free) curved += information[i * n + k]! * change[k]!;
    gain += (2 * slopes.score[i]! - curved) * change[i]!;
  }
  return { target: values.map((value, i) => value + change[i]!), gain };
}

function emValues(
  components: readonly Component[],
  parameters: readonly Parameter[],
  values: Float64Array,
  joint: JointSolution,
  slope: JointDerivatives,
): Float64Array {
  const target = valuesAt(components, parameters, emMatrices(components, joint, slope));
  const { low } = rangesAt(components, parameters, values);
  return target.map((value, i) => (parameters[i]!.held ? values[i]! : Math.max(low[i]!, value)));
}

interface Found {
  readonly values: Float64Array;
  readonly joint: JointSolution;
}

/**
 * The step doubled, or else halved, as long as that raises the likelihood further. Near a correlation of 1 average information
 * may be far from the curvature, and steps that it proposes too short or swinging about the summit.
 */
function tuned(from: Float64Array, first: Found, low: Float64Array, high: Float64Array, at: Solver): Found {
  let best = first;
  let asked: Found | null = first;
  for (const factor of [2, 0.5]) {
    for (let k = 1, share = factor; k <= MOST_TUNING; k++, share *= factor) {
      const values = from.map((value, i) =>
        Math.min(high[i]!, Math.max(low[i]!, value + share * (first.values[i]! - value))),
      );
      const joint = at(values);
      asked = joint && { values, joint };
      if (!asked || asked.joint.logLikelihood <= best.joint.logLikelihood) break;
      best = asked;
    }
    if (best !== first) break;
  }
  // The factor of the last one asked stands in the shared room.
  return best === asked ? best : { values: best.values, joint: at(best.values)! };
}

/** The first of: the whole step, its halves, the EM step, that raises the likelihood; null if none does. */
function improved(
  values: Float64Array,
  logLikelihood: number,
  step: Step | null,
  em: Float64Array,
  at: Solver,
): Found | null {
  const tried = (target: Float64Array, least: number) => {
    const joint = at(target);
    return joint && joint.logLikelihood > least ? { values: target, joint } : null;
  };
  if (step) {
    const whole = tried(step.target, logLikelihood - ROUNDING * Math.abs(logLikelihood));
    if (whole) return whole;
    for (let halving = 1, share = 0.5; halving < HALVINGS; halving++, share /= 2) {
      const target = values.map((value, i) => value + share * (step.target[i]! - value));
      const next = tried(target, logLikelihood);
      if (next) return next;
    }
  }
  return tried(em, logLikelihood);
}

function progressOf(
  layout: Layout,
  components: readonly Component[],
  parameters: readonly Parameter[],
  values: Float64Array,
): { term: string; estimate: number }[] {
  return parameters.flatMap(({ component, of }, i) => {
    if (of === null) return [];
    const { name, traits } = components[component]!;
    const trait = traits[of]!;
    return [{ term: `${layout.names[trait]}: ${name}`, estimate: values[i]! * layout.scales[trait]! ** 2 }];
  });
}
