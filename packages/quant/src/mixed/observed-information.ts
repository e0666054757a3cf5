import { derivatives, slopesAt } from './derivatives.ts';
import { evaluate } from './evaluation.ts';
import type { FitControl } from './model.ts';
import { FitCancelledError } from './model-error.ts';
import type { RemlFit } from './reml.ts';
import { inverseAmong } from './small-systems.ts';

/** Steps of the differences in standard errors: what they leave out is of this order, rounding far below. */
const STEP = 1e-5;

/**
 * The fit with the observed information at its end, the second derivatives of the log-likelihood in the variances, in place
 * of the average information. By differences of the slope (docs/methods/mixed-model.md, lines 8 and 9): the equations are
 * solved once more for each variance that was free, and once to stand as before. The average information stays where the
 * other is not positive definite.
 *
 * @param held names of held variances
 * @throws FitCancelledError when stopped
 */
export function withObservedInformation(
  fit: RemlFit,
  held: ReadonlyMap<string, number>,
  control: FitControl,
): RemlFit {
  const { design, equations, room } = fit;
  const { variances } = fit.evaluation;
  const { score, information, inverse: reuse } = fit.derivatives;
  const size = variances.length;
  const names = [...design.terms.map((term) => term.name), 'residual'];
  const free = names.map((_, i) => i).filter((i) => !held.has(names[i]!));
  const covariance = inverseAmong(information, size, free);
  if (!covariance || free.length === 0) return fit;
  const observed = information.slice();
  free.forEach((i, at) => {
    if (control.isCancelled?.()) throw new FitCancelledError();
    const step = STEP * Math.sqrt(covariance[at * free.length + at]!);
    const moved = variances.slice();
    moved[i] = moved[i]! + step;
    const there = slopesAt(design, equations, evaluate(design, equations, room, moved, false), reuse);
    for (const k of free) observed[i * size + k] = (score[k]! - there.score[k]!) / step;
  });
  for (const i of free) {
    for (const k of free) {
      if (k >= i) continue;
      const mean = (observed[i * size + k]! + observed[k * size + i]!) / 2;
      observed[i * size + k] = mean;
      observed[k * size + i] = mean;
    }
  }
  const evaluation = evaluate(design, equations, room, variances, false);
  const stood = derivatives(design, equations, evaluation, reuse);
  const usable = inverseAmong(observed, size, free) !== null;
  return { ...fit, evaluation, derivatives: usable ? { ...stood, information: observed } : stood };
}
