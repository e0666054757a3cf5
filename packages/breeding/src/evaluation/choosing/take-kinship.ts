import { type FitControl, fitModel, type Model, ModelError } from '@keelrow/quant';
import { additiveTerm, type PedigreeEntry, PedigreeError } from '../../pedigree/index.ts';
import { type Kin, kinOf } from '../kin/kin.ts';
import { entriesOfKin } from '../kin/kin-entries.ts';
import type { Scale } from '../scale.ts';
import type { TraitNote } from '../trait-note.ts';
import { type ChoiceSample, choiceSample, severalIn } from './choice-sample.ts';
import type { ChosenModel } from './choose-model.ts';
import { chooseFounderKinship } from './founder-kinship.ts';
import { response } from './table.ts';

/** Kinship, and the choice of the model with what was said of it. */
export interface TakenKinship {
  readonly kin: Kin | null;
  /** The pedigree that it is of; empty where kinship was not taken. */
  readonly entries: readonly PedigreeEntry[];
  readonly chosen: ChosenModel;
}

/**
 * Kinship of the noted genets and their kin, where the choice of the model asks for it and the parentage can be.
 *
 * @param given kinship within founder groups (2θ) where it is known; else the notes tell it, or the usual value is taken
 */
export function takeKinship(
  notes: readonly TraitNote[],
  pedigree: readonly PedigreeEntry[] | null,
  chosen: ChosenModel,
  scale: Scale,
  given: number | undefined,
  control: FitControl,
): TakenKinship {
  if (pedigree === null || !chosen.kinship.used) return { kin: null, entries: [], chosen };
  try {
    const entries = entriesOfKin(pedigree, new Set(notes.map(({ genet }) => genet)));
    const sample = choiceSample(notes, chosen, scale, entries);
    const { gamma, words } =
      given === undefined
        ? chooseFounderKinship(entries, sample.genets, (each) => likelihoodAt(each, sample, chosen, control))
        : { gamma: given, words: [] };
    const { kinship } = chosen;
    return {
      kin: kinOf(entries, gamma),
      entries,
      chosen: { ...chosen, kinship: { ...kinship, words: [...kinship.words, ...words] } },
    };
  } catch (error) {
    if (!(error instanceof PedigreeError)) throw error;
    return { kin: null, entries: [], chosen: withoutKinship(chosen, error) };
  }
}

function withoutKinship(chosen: ChosenModel, { problem, remedy }: PedigreeError): ChosenModel {
  const words = `The parentage on record cannot be, so each genet is judged by its own notes alone: ${problem}. ${remedy}.`;
  return {
    ...chosen,
    tookIntoAccount: chosen.tookIntoAccount.filter((took) => took !== chosen.kinship.took),
    couldNotSeparate: [words, ...chosen.couldNotSeparate],
    considered: chosen.considered.map((one) =>
      one.term === 'additive' ? { ...one, entered: false, why: words } : one,
    ),
    kinship: { used: false, took: null, words: [words] },
  };
}

/** REML log-likelihood at a kinship within founder groups, of a model of the fixed terms and the genets alone. */
function likelihoodAt(gamma: number, sample: ChoiceSample, chosen: ChosenModel, control: FitControl): number {
  const model: Model = {
    response,
    fixed: severalIn(sample, chosen.fixed),
    random: chosen.random.filter((term) => term === 'genet'),
    additive: additiveTerm(kinOf(sample.entries, gamma).kinship, 'additive'),
  };
  try {
    return fitModel(sample.table, model, control).result.remlLogLikelihood;
  } catch (error) {
    if (error instanceof ModelError) return -Infinity;
    throw error;
  }
}
