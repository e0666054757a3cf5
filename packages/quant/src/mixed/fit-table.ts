import { type Design, readDesign, withoutTerms } from './design.ts';
import { requireSeparableTerms } from './estimability.ts';
import { type FittedModel, fittedModel } from './fitted-model.ts';
import { readHeld } from './held.ts';
import type { FitControl, FitResult, Model, Table } from './model.ts';
import { withObservedInformation } from './observed-information.ts';
import { maximise, type RemlFit } from './reml.ts';
import { fitResult } from './result.ts';
import { startingValues } from './starting-values.ts';

/**
 * Fits a linear mixed model to a table by restricted maximum likelihood.
 *
 * @returns estimates in the units of the response (variances in its square)
 * @throws ModelError when the table or the model cannot be fitted as given; FitCancelledError when stopped
 */
export function fitTable(table: Table, model: Model, control: FitControl = {}): FitResult {
  return fitModel(table, model, control).result;
}

/** As fitTable, keeping the factorised equations for questions on sums of effects. */
export function fitModel(table: Table, model: Model, control: FitControl = {}): FittedModel {
  const whole = readDesign(table, model);
  const held = readHeld(whole, model.held);
  requireSeparableTerms(whole, new Set(held.keys()));
  const found = search(whole, held, control);
  const fit = control.observedInformation ? withObservedInformation(found, held, control) : found;
  return fittedModel(fit, whole, held, fitResult(fit, whole, held));
}

/** Maximises the likelihood; terms whose variance ends at its bound are then left out altogether, so that they are 0. */
function search(whole: Design, held: ReadonlyMap<string, number>, control: FitControl): RemlFit {
  const first = startingValues(whole);
  const known = new Map(whole.terms.map((term, t) => [term.name, first[t]!]));
  known.set('residual', first[whole.terms.length]!);
  for (const [name, value] of held) known.set(name, value);
  const dropped = new Set([...held].filter(([, value]) => value === 0).map(([name]) => name));
  let iterations = 0;
  for (;;) {
    const design = dropped.size > 0 ? withoutTerms(whole, dropped) : whole;
    const names = [...design.terms.map((term) => term.name), 'residual'];
    const fit = maximise(
      design,
      {
        variances: Float64Array.from(names, (name) => known.get(name)!),
        held: names.map((name) => held.has(name)),
        iterations,
      },
      control,
    );
    if (fit.atBound.length === 0) return fit;
    for (const name of fit.atBound) dropped.add(name);
    names.forEach((name, i) => {
      known.set(name, fit.evaluation.variances[i]!);
    });
    iterations = fit.iterations;
  }
}
