import { solve } from '../sparse/solve.ts';
import type { Design } from './design.ts';
import type { FitResult, FittedEffect, FittedFixed, FittedVariance } from './model.ts';
import type { RemlFit } from './reml.ts';
import { inverseAmong } from './small-systems.ts';
import { boundWarning, designWarnings, SINGULAR_WARNING, unconvergedWarning } from './warnings.ts';

/** The result of a fit in the shape that is printed; terms of `whole` that the fit left out have a variance of 0. */
export function fitResult(fit: RemlFit, whole: Design, held: ReadonlyMap<string, number>): FitResult {
  const { variances, singular } = listVariances(fit, whole, held);
  const warnings = designWarnings(whole);
  for (const { term, estimate } of variances)
    if (estimate === 0 && !held.has(term)) warnings.push(boundWarning(term));
  if (!fit.converged) warnings.push(unconvergedWarning(fit.iterations));
  if (singular) warnings.push(SINGULAR_WARNING);
  return {
    records: whole.records,
    omitted: whole.omitted,
    method: 'REML',
    converged: fit.converged,
    iterations: fit.iterations,
    remlLogLikelihood: fit.evaluation.logLikelihood,
    fixed: listFixed(fit),
    variances,
    effects: listEffects(fit, whole),
    warnings,
  };
}

function listVariances(
  fit: RemlFit,
  whole: Design,
  held: ReadonlyMap<string, number>,
): { variances: FittedVariance[]; singular: boolean } {
  const names = [...fit.design.terms.map((term) => term.name), 'residual'];
  const free = names.map((_, i) => i).filter((i) => !held.has(names[i]!));
  const inverse = inverseAmong(fit.derivatives.information, names.length, free);
  const found = new Map<string, FittedVariance>(
    names.map((term, i) => {
      const at = free.indexOf(i);
      const se = inverse && at >= 0 ? Math.sqrt(inverse[at * free.length + at]!) : null;
      return [term, { term, estimate: fit.evaluation.variances[i]!, se }];
    }),
  );
  const variances = [...whole.terms.map((term) => term.name), 'residual'].map(
    (term) => found.get(term) ?? { term, estimate: 0, se: null },
  );
  return { variances, singular: inverse === null };
}

/** Fixed effects, back on the scale of their columns; standard errors as the contract has them. */
function listFixed(fit: RemlFit): FittedFixed[] {
  const { design, evaluation } = fit;
  const { factor, solution } = evaluation;
  const residual = evaluation.variances[design.terms.length]!;
  let intercept = solution[0]! + design.mean;
  const shares = new Float64Array(solution.length);
  design.fixed.forEach(({ centre, scale }, j) => {
    shares[j] = j === 0 ? 1 : -centre / scale;
    if (j > 0) intercept -= (solution[j]! * centre) / scale;
  });
  const solved = shares.slice();
  solve(factor, solved);
  let interceptVariance = 0;
  for (let j = 0; j < design.fixed.length; j++) interceptVariance += residual * shares[j]! * solved[j]!;
  return design.fixed.map(({ term, level, scale }, j) => {
    if (j === 0) return { term, level, estimate: intercept, se: Math.sqrt(interceptVariance) };
    return { term, level, estimate: solution[j]! / scale, se: Math.sqrt(errorVariance(fit, j)) / scale };
  });
}

function listEffects(fit: RemlFit, whole: Design): FittedEffect[] {
  const effects: FittedEffect[] = [];
  for (const { name, levels, ownCovariance } of whole.terms) {
    const t = fit.design.terms.findIndex((term) => term.name === name);
    const term = fit.design.terms[t];
    levels.forEach((level, i) => {
      if (!term) {
        effects.push({ term: name, level, estimate: 0, se: 0, reliability: null });
        return;
      }
      const equation = term.offset + term.equations[i]!;
      const pev = errorVariance(fit, equation);
      effects.push({
        term: name,
        level,
        estimate: fit.evaluation.solution[equation]!,
        se: Math.sqrt(pev),
        reliability: 1 - pev / (fit.evaluation.variances[t]! * ownCovariance[i]!),
      });
    });
  }
  return effects;
}

/** Error variance of one unknown: residual variance × its diagonal entry of the inverse of the equations. */
function errorVariance(fit: RemlFit, equation: number): number {
  const { symbolic } = fit.equations;
  const entry = fit.derivatives.inverse[symbolic.diagonalTarget[symbolic.place[equation]!]!]!;
  return fit.evaluation.variances[fit.design.terms.length]! * entry;
}
