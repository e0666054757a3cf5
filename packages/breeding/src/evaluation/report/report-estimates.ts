import { measureOf } from '../../facts/index.ts';
import { counted } from '../choosing/terms/classes.ts';
import type { Evaluation, NoEvaluation } from '../evaluation.ts';
import { type GenetValue, genetValues, type Predicted, reliabilityOf } from '../genet-values.ts';
import { halfOf80 } from '../half-of-80.ts';
import type { BreedingValue, EstimatesReport, GenetEstimate } from '../report.ts';
import { type Scale, shown as withinLimits } from '../scale.ts';
import type { TraitNote } from '../trait-note.ts';
import { type NoteDistance, noteDistances } from './far-notes.ts';
import { farInWords, heedOf, varianceInWords } from './report-words.ts';
import { accuracyOf, sharesOf } from './shares.ts';
import type { Shown } from './shown-beside.ts';

/** Ranks genets from an evaluation: all numbers in the trait's own unit, sentences in the units of the programme. */
export function reportEstimates(
  evaluation: Evaluation | NoEvaluation,
  notes: readonly TraitNote[],
  shown: Shown,
): EstimatesReport {
  const { chosen } = evaluation;
  const base = {
    trait: shown.trait,
    notes: notes.length,
    genets: new Set(notes.map(({ genet }) => genet)).size,
    years: [...new Set(notes.map(({ year }) => year))].sort((a, b) => a - b),
    tookIntoAccount: chosen.tookIntoAccount,
    couldNotSeparate: chosen.couldNotSeparate,
    kinship: {
      used: evaluation.fitted !== null && evaluation.kin !== null,
      words: chosen.kinship.words,
      gamma: evaluation.fitted === null ? null : (evaluation.kin?.gamma ?? null),
    },
  };
  if (evaluation.fitted === null)
    return {
      ...base,
      heed: [],
      scale: { name: 'as noted', words: '' },
      heritability: null,
      repeatability: null,
      accuracy: null,
      variances: [],
      estimates: [],
    };
  const { result } = evaluation.fitted;
  const values = genetValues(evaluation);
  const far = noteDistances(evaluation).filter(({ flagged }) => flagged);
  const besideAdditive = result.variances.some(({ term }) => term === 'additive');
  const descending = shown.trait.wanted !== 'less';
  const measure = measureOf(shown.trait.unit, shown.units ?? 'metric');
  return {
    ...base,
    heed: [...heedOf(evaluation, measure), ...farInWords(notes, far, shown, measure)],
    scale: { name: evaluation.scale.name, words: evaluation.scale.words },
    ...sharesOf(evaluation),
    accuracy: accuracyOf(values, evaluation.notedGenets),
    variances: result.variances.map(({ term, estimate, se }) => ({
      term,
      words: varianceInWords(term, besideAdditive),
      estimate,
      se,
    })),
    estimates: genetEstimates(evaluation, values, far, shown).sort(
      (a, b) =>
        (descending ? b.estimate - a.estimate : a.estimate - b.estimate) || (a.code < b.code ? -1 : 1),
    ),
  };
}

function genetEstimates(
  { notes, level, scale, kin }: Evaluation,
  values: readonly GenetValue[],
  far: readonly NoteDistance[],
  { genets }: Shown,
): GenetEstimate[] {
  const own = new Map<string, TraitNote[]>();
  for (const note of notes) {
    const list = own.get(note.genet);
    if (list) list.push(note);
    else own.set(note.genet, [note]);
  }
  const slips = counted(far.map(({ row }) => notes[row]!.genet));
  // Parents whose records were withdrawn have a value, and nothing to show it by.
  const known = values.filter(({ genet }) => own.has(genet) || genets.has(genet));
  return known.map(({ genet: id, total, additive }) => {
    const of = own.get(id) ?? [];
    const genet = genets.get(id);
    const { effect, se, seInDoubt, low, high } = inOwnUnit(scale, level, total);
    return {
      id,
      code: genet?.code ?? id,
      name: genet?.name ?? null,
      standard: genet?.standard ?? false,
      estimate: withinLimits(scale, level + total.effect),
      effect,
      se,
      seInDoubt,
      low: withinLimits(scale, low),
      high: withinLimits(scale, high),
      breeding: additive && breedingValue(scale, level, additive),
      inbreeding: kin ? kin.inbreeding(id) : null,
      notes: of.length,
      years: new Set(of.map(({ year }) => year)).size,
      plants: new Set(of.map(({ plant }) => plant)).size,
      slips: slips.get(id) ?? 0,
      mean: of.length > 0 ? of.reduce((sum, { value }) => sum + value, 0) / of.length : null,
      reliability: reliabilityOf(total),
    };
  });
}

/**
 * A prediction in the trait's unit: effect and its standard errors there, and the ends of its range still on the scale.
 * Where the scale is bent, the effect is that of medians, and the error half the width of an 80% range over 1.28.
 */
function inOwnUnit(scale: Scale, level: number, { effect, se, atBest }: Predicted) {
  const end = (sign: 1 | -1, error: number) => level + effect + sign * halfOf80 * error;
  const range = { low: end(-1, se), high: end(1, se) };
  if (scale.name === 'as noted') return { effect, se: atBest, seInDoubt: se, ...range };
  const inUnit = (error: number) => (scale.from(end(1, error)) - scale.from(end(-1, error))) / (2 * halfOf80);
  return {
    effect: scale.from(level + effect) - scale.from(level),
    se: inUnit(atBest),
    seInDoubt: inUnit(se),
    ...range,
  };
}

function breedingValue(scale: Scale, level: number, additive: Predicted): BreedingValue {
  const { effect, se, seInDoubt, low, high } = inOwnUnit(scale, level, additive);
  const middle = scale.from(level);
  return {
    effect,
    se,
    seInDoubt,
    low: scale.from(low) - middle,
    high: scale.from(high) - middle,
    reliability: reliabilityOf(additive),
  };
}
