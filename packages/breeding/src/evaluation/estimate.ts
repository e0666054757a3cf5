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
import type { Kin } from './kin.ts';
import { asNoted, type Scale } from './scale.ts';
import type { TraitNote } from './trait-note.ts';

/** Estimates of one trait, ready to be asked about single genets and pairs. All but `notes` is on the scale of the sums. */
export interface Evaluation {
  readonly chosen: ChosenModel;
  readonly notes: readonly TraitNote[];
  readonly scale: Scale;
  readonly table: Table;
  readonly model: Model;
  readonly fitted: FittedModel;
  /** Kinship of the genets; null where it was not used. */
  readonly kin: Kin | null;
  readonly notedGenets: ReadonlySet<string>;
  /** Genets that have an estimate: the noted ones, and with kinship those that are kin to them. */
  readonly listed: readonly string[];
  /** Level of the average noted genet in an average season, bed and age among the notes. */
  readonly level: number;
}

/** Half the width of an 80% range in standard errors: Φ⁻¹(0.9) = 1.2816. */
export const halfOf80 = normalQuantile(0.9);

const response = 'value';

/** The table that the model is fitted to: a row for each note, its value on the scale of the sums. */
export function tableOf(notes: readonly TraitNote[], chosen: ChosenModel, { to }: Scale): Table {
  return { columns: new Map([...chosen.columns, [response, notes.map(({ value }) => String(to(value)))]]) };
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
  const scale = asNoted('Values are taken as they were noted.');
  const table = tableOf(notes, chosen, scale);
  const model: Model = { response, fixed: chosen.fixed, random: chosen.random };
  const fitted = fitModel(table, model, control);
  const notedGenets = new Set(notes.map(({ genet }) => genet));
  return {
    chosen,
    notes,
    scale,
    table,
    model,
    fitted,
    kin: null,
    notedGenets,
    listed: [...notedGenets],
    level: fitted.combine([...averageLevel(notes, chosen), ...averageGenet(notedGenets)]).estimate,
  };
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

const averageGenet = (noted: ReadonlySet<string>): WeightedEffect[] =>
  [...noted].map((level) => ({ term: 'genet', level, weight: 1 / noted.size }));
