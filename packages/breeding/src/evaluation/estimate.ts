import type { WeightedEffect } from '@keelrow/quant';
import type { PedigreeEntry } from '../pedigree/index.ts';
import { buildModel, type EvaluateControl } from './choosing/build-model.ts';
import { chooseModel } from './choosing/choose-model.ts';
import { fitWhatCan } from './choosing/fit-what-can.ts';
import { leftOutInWords } from './choosing/left-out.ts';
import { depressionIn } from './depression.ts';
import type { Evaluation, NoEvaluation } from './evaluation.ts';
import type { TraitNote } from './trait-note.ts';
import { valueParts } from './value-parts.ts';
import { weightedFits } from './variances-in-doubt/weighted-fits.ts';

/**
 * Estimates every genet for one trait by the mixed model that its notes and its kin allow (REML; docs/methods/evaluation.md).
 *
 * What the ranges of the report hold: the true distance of a genet from the average noted genet, on the scale of the sums,
 * `total` its additive value and all that it is beyond, `additive` what it hands on; each normal, and as wide as the doubt
 * about the variances asks for. The level of all genets together has an error of its own that is not in them.
 *
 * @param pedigree all genets with their parents as recorded; null to judge each by its own notes alone
 * @returns with `fitted` null and the reason in `chosen.impossible` where nothing can be told
 * @throws FitCancelledError when stopped
 */
export function evaluate(
  notes: readonly TraitNote[],
  pedigree: readonly PedigreeEntry[] | null = null,
  control: EvaluateControl = {},
): Evaluation | NoEvaluation {
  const first = chooseModel(notes, pedigree);
  if (first.impossible) return { chosen: first, fitted: null };
  const built = buildModel(notes, pedigree, first, control);
  const outcome = fitWhatCan(built.table, built.model, control);
  if (outcome.fitted === null) {
    const words = `Nothing can be estimated: ${outcome.problem}`;
    return {
      chosen: { ...built.chosen, couldNotSeparate: [words], tookIntoAccount: [], impossible: words },
      fitted: null,
    };
  }
  const { fitted, model, leftOut } = outcome;
  const notedGenets = new Set(notes.map(({ genet }) => genet));
  const kin = model.additive ? built.kin : null;
  const evaluation: Evaluation = {
    chosen: leftOutInWords(built.chosen, leftOut),
    notes,
    scale: built.scale,
    table: built.table,
    model,
    fitted,
    fits: weightedFits(built.table, model, fitted, control),
    kin,
    familyOf: built.familyOf,
    depression: depressionIn(fitted, kin),
    notedGenets,
    listed: kin ? kin.kinship.genets : [...notedGenets],
    level: 0,
  };
  return { ...evaluation, level: fitted.combine(averageNote(evaluation)).estimate };
}

/** The intercept, each class by its share of the notes, and the average noted genet. */
function averageNote(evaluation: Evaluation): WeightedEffect[] {
  const { notes, model, chosen, notedGenets, kin } = evaluation;
  const effects: WeightedEffect[] = [{ term: 'intercept', level: null, weight: 1 }];
  for (const term of model.fixed) {
    if (term === 'inbreeding') {
      const mean = [...notedGenets].reduce((sum, genet) => sum + (kin?.inbreeding(genet) ?? 0), 0);
      effects.push({ term, level: null, weight: mean / notedGenets.size });
      continue;
    }
    const shares = new Map<string, number>();
    for (const level of chosen.columns.get(term)!)
      shares.set(level, (shares.get(level) ?? 0) + 1 / notes.length);
    for (const [level, weight] of shares) effects.push({ term, level, weight });
  }
  for (const { effectOf } of valueParts(evaluation))
    for (const genet of notedGenets) effects.push(...[effectOf(genet, 1 / notedGenets.size) ?? []].flat());
  return effects;
}
