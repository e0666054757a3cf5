import {
  type FitControl,
  type FittedModel,
  fitModel,
  type Model,
  normalQuantile,
  type Table,
  type WeightedEffect,
} from '@keelrow/quant';
import { type ChosenModel, chooseModel } from './choose-model.ts';
import type { TraitNote } from './trait-note.ts';

/** Estimates of one trait, ready to be asked about single genets and pairs. */
export interface Evaluation {
  readonly chosen: ChosenModel;
  readonly notes: readonly TraitNote[];
  readonly table: Table;
  readonly model: Model;
  readonly fitted: FittedModel;
  /** Level of an average season, age and observer among the notes, in the trait's unit. */
  readonly level: number;
}

/** Half the width of an 80% range in standard errors: Φ⁻¹(0.9) = 1.2816. */
export const halfOf80 = normalQuantile(0.9);

const response = 'value';

export function tableOf(notes: readonly TraitNote[], chosen: ChosenModel): Table {
  return { columns: new Map([...chosen.columns, [response, notes.map(({ value }) => String(value))]]) };
}

/**
 * Estimates every genet for one trait by the mixed model that its notes allow (REML; see docs/methods/mixed-model.md).
 * Returns null with the reason in `chosen.impossible` where nothing can be told. Throws FitCancelledError when stopped.
 */
export function evaluate(
  notes: readonly TraitNote[],
  control: FitControl = {},
): Evaluation | { readonly chosen: ChosenModel; readonly fitted: null } {
  const chosen = chooseModel(notes);
  if (chosen.impossible) return { chosen, fitted: null };
  const table = tableOf(notes, chosen);
  const model: Model = { response, fixed: chosen.fixed, random: chosen.random };
  const fitted = fitModel(table, model, control);
  return { chosen, notes, table, model, fitted, level: fitted.combine(averageLevel(notes, chosen)).estimate };
}

/** The fixed effects of an average note: the intercept and each class by its share of the notes. */
function averageLevel(notes: readonly TraitNote[], chosen: ChosenModel): WeightedEffect[] {
  const effects: WeightedEffect[] = [{ term: 'intercept', level: null, weight: 1 }];
  for (const term of chosen.fixed) {
    const shares = new Map<string, number>();
    for (const level of chosen.columns.get(term)!)
      shares.set(level, (shares.get(level) ?? 0) + 1 / notes.length);
    for (const [level, weight] of shares) effects.push({ term, level, weight });
  }
  return effects;
}
