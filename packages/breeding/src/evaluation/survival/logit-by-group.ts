import { invertDense } from '../answers/invert-dense.ts';
import { gaussHermite } from './gauss-hermite.ts';

/** Outcomes of one group: 1 or 0, and the fixed columns of each. */
export interface Outcomes {
  readonly happened: Uint8Array;
  /** Row by row. */
  readonly columns: Float64Array;
}

export interface LogitFit {
  readonly coefficients: Float64Array;
  /** Covariance of the coefficients' estimates, row by row. */
  readonly covariance: Float64Array;
  /** Standard deviation between groups on the scale of log-odds, and the standard error of its logarithm; null at 0. */
  readonly spread: number;
  readonly spreadLogError: number | null;
  readonly logLikelihood: number;
  /** Of each group: the mode of its effect given its outcomes, and its standard deviation about it. */
  readonly modes: Float64Array;
  readonly modeErrors: Float64Array;
  readonly converged: boolean;
}

const { nodes, weights } = gaussHermite(15);
const leastLogSpread = Math.log(0.01);
const mostRounds = 100;
const settled = 1e-9;

/**
 * Logistic regression with one normal effect for each group, by maximum likelihood; each group's effect is integrated out
 * by Gauss-Hermite quadrature about its mode (Pinheiro & Bates 1995, Journal of Computational and Graphical Statistics
 * 4:12-35, section 2.4). The slopes are those of the integral (its derivative is the mean of the derivatives over the
 * effect given the outcomes); the Hessian of Newton's method is taken from their differences.
 *
 * @param precisions for each fixed column 1/variance of a normal prior about 0; 0 for none. A column under which all or
 * nothing happened has no finite estimate without.
 */
export function fitLogit(groups: readonly Outcomes[], precisions: Float64Array): LogitFit {
  const width = precisions.length;
  const size = width + 1;
  let at = startingValues(groups, width);
  let now = likelihood(groups, precisions, at);
  let hessian = hessianAt(groups, precisions, at, now.slope);
  let damping = 1e-3;
  let converged = false;
  for (let round = 0; round < mostRounds && !converged; round++) {
    const step = dampedStep(hessian, now.slope, damping, at);
    const next = at.map((each, i) => each + step[i]!);
    next[width] = Math.max(leastLogSpread, next[width]!);
    const after = likelihood(groups, precisions, next);
    if (!(after.value > now.value)) {
      // Nothing is gained by the smallest step: the summit, as far as rounding lets it be seen.
      converged = step.every((each) => Math.abs(each) < settled);
      damping *= 10;
      continue;
    }
    converged = after.value - now.value < settled && damping < 1;
    at = next;
    now = after;
    damping /= 10;
    hessian = hessianAt(groups, precisions, at, now.slope);
  }
  const whole = at[width]! > leastLogSpread ? invertDense(hessian, size, size) : null;
  // Near no spread at all the curve does not bend in it: then it is held where it is.
  const free = whole ? size : width;
  const covariance = whole ?? invertDense(hessian, size, width);
  const atBound = whole === null;
  return {
    coefficients: at.slice(0, width),
    covariance: Float64Array.from({ length: width * width }, (_, k) =>
      covariance ? covariance[Math.floor(k / width) * free + (k % width)]! : Number.NaN,
    ),
    spread: atBound ? 0 : Math.exp(at[width]!),
    spreadLogError: atBound || !covariance ? null : Math.sqrt(covariance[width * free + width]!),
    logLikelihood: now.value,
    modes: now.modes,
    modeErrors: now.modeErrors,
    converged,
  };
}

interface Likelihood {
  readonly value: number;
  readonly slope: Float64Array;
  readonly modes: Float64Array;
  readonly modeErrors: Float64Array;
}

function likelihood(groups: readonly Outcomes[], precisions: Float64Array, at: Float64Array): Likelihood {
  const width = precisions.length;
  const spread = Math.exp(at[width]!);
  const slope = new Float64Array(width + 1);
  const modes = new Float64Array(groups.length);
  const modeErrors = new Float64Array(groups.length);
  const logs = new Float64Array(nodes.length);
  let value = 0;
  for (let c = 0; c < width; c++) {
    value -= 0.5 * precisions[c]! * at[c]! ** 2;
    slope[c] = -precisions[c]! * at[c]!;
  }
  for (const [g, group] of groups.entries()) {
    const fixed = fixedParts(group, width, at);
    const { mode, error } = modeOf(group, fixed, spread);
    modes[g] = mode;
    modeErrors[g] = error;
    const effects = nodes.map((node) => mode + Math.SQRT2 * error * node);
    for (let k = 0; k < nodes.length; k++)
      logs[k] = Math.log(weights[k]!) + nodes[k]! ** 2 + logJoint(group, fixed, effects[k]!, spread);
    const most = Math.max(...logs);
    const total = logs.reduce((sum, each) => sum + Math.exp(each - most), 0);
    value += most + Math.log(total) + Math.log((Math.SQRT2 * error) / (spread * Math.sqrt(2 * Math.PI)));
    for (let k = 0; k < nodes.length; k++) {
      const chance = Math.exp(logs[k]! - most) / total;
      for (let i = 0; i < fixed.length; i++) {
        const left = chance * (group.happened[i]! - logistic(fixed[i]! + effects[k]!));
        for (let c = 0; c < width; c++) slope[c] = slope[c]! + left * group.columns[i * width + c]!;
      }
      slope[width] = slope[width]! + chance * ((effects[k]! / spread) ** 2 - 1);
    }
  }
  return { value, slope, modes, modeErrors };
}

function fixedParts({ happened, columns }: Outcomes, width: number, at: Float64Array): Float64Array {
  return Float64Array.from(happened, (_, i) => {
    let sum = 0;
    for (let c = 0; c < width; c++) sum += columns[i * width + c]! * at[c]!;
    return sum;
  });
}

function logJoint({ happened }: Outcomes, fixed: Float64Array, effect: number, spread: number): number {
  let sum = -0.5 * (effect / spread) ** 2;
  for (let i = 0; i < fixed.length; i++) {
    const odds = fixed[i]! + effect;
    sum += (happened[i]! === 1 ? odds : 0) - Math.log1p(Math.exp(-Math.abs(odds))) - Math.max(0, odds);
  }
  return sum;
}

/** The most likely effect of a group given its outcomes, by Newton's method; the curve has one summit. */
function modeOf(
  { happened }: Outcomes,
  fixed: Float64Array,
  spread: number,
): { mode: number; error: number } {
  let mode = 0;
  let curve = 0;
  for (let round = 0; round < 100; round++) {
    let lean = -mode / spread ** 2;
    curve = 1 / spread ** 2;
    for (let i = 0; i < fixed.length; i++) {
      const chance = logistic(fixed[i]! + mode);
      lean += happened[i]! - chance;
      curve += chance * (1 - chance);
    }
    const step = lean / curve;
    mode += Math.max(-2, Math.min(2, step));
    if (Math.abs(step) < 1e-12) break;
  }
  return { mode, error: 1 / Math.sqrt(curve) };
}

export const logistic = (odds: number): number => 1 / (1 + Math.exp(-odds));

/** Minus the second derivatives, from differences of the slopes. */
function hessianAt(
  groups: readonly Outcomes[],
  precisions: Float64Array,
  at: Float64Array,
  slope: Float64Array,
): Float64Array {
  const size = slope.length;
  const found = new Float64Array(size * size);
  const reach = 1e-4;
  for (let c = 0; c < size; c++) {
    const moved = (by: number) => {
      const place = at.slice();
      place[c] = place[c]! + by;
      return likelihood(groups, precisions, place).slope;
    };
    const [up, down] = [moved(reach), moved(-reach)];
    for (let r = 0; r < size; r++) found[r * size + c] = -(up[r]! - down[r]!) / (2 * reach);
  }
  for (let r = 0; r < size; r++)
    for (let c = 0; c < r; c++) {
      const mean = (found[r * size + c]! + found[c * size + r]!) / 2;
      found[r * size + c] = mean;
      found[c * size + r] = mean;
    }
  return found;
}

/** The first column is taken for an intercept, which starts at the share of all outcomes; the spread starts at a half. */
function startingValues(groups: readonly Outcomes[], width: number): Float64Array {
  const all = groups.reduce((sum, { happened }) => sum + happened.length, 0);
  const happened = groups.reduce(
    (sum, group) => sum + group.happened.reduce((own, each) => own + each, 0),
    0,
  );
  const at = new Float64Array(width + 1);
  at[0] = Math.log((happened + 0.5) / (all - happened + 0.5));
  at[width] = Math.log(0.5);
  return at;
}

/**
 * Newton's step, damped where the curve does not bend down or the step gains nothing: towards the slope and shorter
 * (Levenberg 1944, Quarterly of Applied Mathematics 2:164-168; Marquardt 1963, Journal of SIAM 11:431-441).
 */
function dampedStep(
  hessian: Float64Array,
  slope: Float64Array,
  damping: number,
  at: Float64Array,
): Float64Array {
  const size = slope.length;
  const held = at[size - 1]! <= leastLogSpread && slope[size - 1]! <= 0;
  const free = held ? size - 1 : size;
  for (let more = damping; ; more *= 10) {
    const damped = hessian.slice();
    for (let i = 0; i < size; i++)
      damped[i * size + i] = damped[i * size + i]! + more * (1 + Math.abs(damped[i * size + i]!));
    const inverse = invertDense(damped, size, free);
    if (!inverse) continue;
    const step = new Float64Array(size);
    for (let r = 0; r < free; r++)
      for (let c = 0; c < free; c++) step[r] = step[r]! + inverse[r * free + c]! * slope[c]!;
    return step;
  }
}
