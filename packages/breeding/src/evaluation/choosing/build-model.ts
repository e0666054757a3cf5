import type { FitControl, Model, Table } from '@keelrow/quant';
import { additiveTerm, type PedigreeEntry } from '../../pedigree/index.ts';
import { type Kin, kinOf } from '../kin/kin.ts';
import type { Scale } from '../scale.ts';
import type { TraitNote } from '../trait-note.ts';
import { conditionCandidates, fullSibFamilies, kinCandidates } from './candidates.ts';
import { type ChoiceSample, choiceSample, severalIn } from './choice-sample.ts';
import type { ChosenModel } from './choose-model.ts';
import { chooseScale, type TraitKind } from './choose-scale.ts';
import { response, tableOf } from './table.ts';
import { takeKinship } from './take-kinship.ts';
import { type Tried, tryTerms } from './tried-terms.ts';

export interface EvaluateControl extends FitControl {
  /** Sort, unit and limits of the trait, which decide on its scale; without them values are taken as noted. */
  readonly trait?: TraitKind;
  /** Kinship within founder groups (2θ) where it is known; else the notes tell it, or the usual value is taken. */
  readonly gamma?: number;
}

/** All that is fixed before the variances are estimated. */
export interface BuiltModel {
  readonly chosen: ChosenModel;
  readonly scale: Scale;
  readonly table: Table;
  readonly model: Model;
  readonly kin: Kin | null;
  readonly familyOf: ((genet: string) => string) | null;
}

const roundsForChoice = 20;

/** Chooses scale, kinship and the terms that have to prove themselves, in this order. */
export function buildModel(
  notes: readonly TraitNote[],
  pedigree: readonly PedigreeEntry[] | null,
  first: ChosenModel,
  control: EvaluateControl,
): BuiltModel {
  // Fits on the way to the model are not told of.
  const quiet: FitControl = {
    ...(control.isCancelled ? { isCancelled: control.isCancelled } : {}),
    maxIterations: roundsForChoice,
  };
  const scale = chooseScale(notes, first, control.trait);
  const { kin, entries, chosen } = takeKinship(notes, pedigree, first, scale, control.gamma, quiet);
  const familyOf = kin ? fullSibFamilies(entries) : null;
  const groups = [
    conditionCandidates(notes),
    ...(kin && familyOf ? [kinCandidates(notes, kin, familyOf)] : []),
  ];
  const columns = new Map([...chosen.columns, ...groups.flatMap((group) => [...group.columns])]);
  const whole: ChosenModel = { ...chosen, columns };
  const tried = tryOnSample(
    choiceSample(notes, whole, scale, entries),
    whole,
    kin,
    groups.flatMap((group) => group.tried),
    quiet,
  );
  const kept = (kind: Tried['kind']) => tried.kept.filter((one) => one.kind === kind).map(({ term }) => term);
  return {
    chosen: {
      ...whole,
      tookIntoAccount: [...whole.tookIntoAccount, ...tried.kept.map(({ took }) => took)],
      considered: [...whole.considered, ...tried.considered],
    },
    scale,
    table: tableOf(notes, whole, scale),
    model: {
      response,
      fixed: [...whole.fixed, ...kept('slope')],
      numeric: kept('slope'),
      random: [...whole.random, ...kept('random')],
      ...(kin ? { additive: additiveTerm(kin.kinship, 'additive') } : {}),
    },
    kin,
    familyOf,
  };
}

function tryOnSample(
  sample: ChoiceSample,
  { fixed, random }: ChosenModel,
  kin: Kin | null,
  candidates: readonly Tried[],
  control: FitControl,
) {
  const base: Model = {
    response,
    fixed: severalIn(sample, fixed),
    random: severalIn(sample, random),
    ...(kin && candidates.length > 0
      ? { additive: additiveTerm(kinOf(sample.entries, kin.gamma).kinship, 'additive') }
      : {}),
  };
  return tryTerms(sample.table, base, candidates, control);
}
