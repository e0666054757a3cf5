import { type FitControl, fitModel, type Model, ModelError, type Table } from '@keelrow/quant';
import { type ConsideredTerm, takenInWords } from './considered.ts';

/** A term that enters only where the notes are clearly likelier with it. */
export interface Tried {
  readonly term: string;
  readonly words: string;
  readonly kind: 'random' | 'slope';
  /** What was taken into account if it enters. */
  readonly took: string;
}

/**
 * What chance alone would give once in a hundred times, as several terms are tried on each of many traits. A variance at its
 * bound: twice the gain in likelihood is half nothing, half χ² (Self & Liang 1987, JASA 82:605-610), so 5.41.
 */
const gainNeeded = 5.41 / 2;
/** A slope: estimate over its error, two-sided. */
const errorsNeeded = 2.58;

/** Tries each term beside those kept before; returns those that are kept, and what was found of each. */
export function tryTerms(
  table: Table,
  base: Model,
  candidates: readonly Tried[],
  control: FitControl,
): { kept: Tried[]; considered: ConsideredTerm[] } {
  let model = base;
  const considered: ConsideredTerm[] = [];
  const keeping: Tried[] = [];
  let before = candidates.length > 0 ? likelihoodOf(table, base, control) : null;
  for (const candidate of candidates) {
    const { term, words, kind, took } = candidate;
    const larger: Model =
      kind === 'random'
        ? { ...model, random: [...model.random, term] }
        : { ...model, fixed: [...model.fixed, term], numeric: [...(model.numeric ?? []), term] };
    const after = likelihoodOf(table, larger, control);
    const slope = after?.fixed.find((fixed) => fixed.term === term);
    const kept =
      after !== null &&
      before !== null &&
      (kind === 'random'
        ? after.likelihood - before.likelihood > gainNeeded
        : slope !== undefined && Math.abs(slope.estimate) > errorsNeeded * slope.se);
    considered.push({
      term,
      words,
      entered: kept,
      why: kept
        ? takenInWords(took)
        : after === null
          ? 'Tried and left out: the notes cannot tell it from the rest.'
          : 'Tried and left out: the notes are no likelier with it than chance would have it.',
    });
    if (!kept) continue;
    keeping.push(candidate);
    model = larger;
    before = after;
  }
  return { kept: keeping, considered };
}

function likelihoodOf(table: Table, model: Model, control: FitControl) {
  try {
    const { result } = fitModel(table, model, control);
    return { likelihood: result.remlLogLikelihood, fixed: result.fixed };
  } catch (error) {
    if (error instanceof ModelError) return null;
    throw error;
  }
}
