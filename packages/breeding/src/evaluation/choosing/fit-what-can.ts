import {
  type FitControl,
  type FittedModel,
  fitModel,
  type Model,
  ModelError,
  type Table,
} from '@keelrow/quant';

/** A term that had to be left out, with what the fit said. */
export interface LeftOut {
  readonly term: string;
  readonly problem: string;
}

export type FitOutcome =
  | { readonly fitted: FittedModel; readonly model: Model; readonly leftOut: readonly LeftOut[] }
  | { readonly fitted: null; readonly problem: string };

/** Terms in the order in which they are given up where not all can be told apart, or memory does not hold them. */
const givenUp = [
  'genet*light',
  'genet*moisture',
  'genet*site',
  'family',
  'season*bed',
  'row',
  'column',
  'plant',
  'observer',
  'bed',
  'additive',
];

/**
 * Fits the model; where the notes do not tell some terms apart, or where there is not the memory for them, leaves out one after
 * another until it can be fitted. Throws FitCancelledError when stopped.
 */
export function fitWhatCan(table: Table, whole: Model, control: FitControl): FitOutcome {
  const leftOut: LeftOut[] = [];
  let model = whole;
  for (;;) {
    try {
      return { fitted: fitModel(table, model, control), model, leftOut };
    } catch (error) {
      if (!(error instanceof ModelError)) throw error;
      const term = givenUp.find((name) =>
        name === 'additive' ? model.additive : model.random.includes(name),
      );
      const less = term === undefined ? null : without(model, term);
      if (term === undefined || less === null) return { fitted: null, problem: error.message };
      leftOut.push({ term, problem: error.message });
      model = less;
    }
  }
}

/** The model without a term; null where nothing would be left to tell the genets by. */
function without(model: Model, term: string): Model | null {
  if (term !== 'additive') return { ...model, random: model.random.filter((name) => name !== term) };
  const { additive: _, ...rest } = model;
  return model.random.includes('genet') ? rest : null;
}
