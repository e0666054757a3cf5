import { type FitControl, fitModel, type Model, ModelError, type Table } from '@keelrow/quant';
import { additiveTerm, type PedigreeEntry, PedigreeError } from '../pedigree/index.ts';
import { conditionCandidates, fullSibFamilies, kinCandidates } from './candidates.ts';
import type { ChosenModel } from './choose-model.ts';
import { chooseScale, type TraitKind } from './choose-scale.ts';
import { chooseFounderKinship } from './founder-kinship.ts';
import { type Kin, kinOf } from './kin.ts';
import { entriesOfAncestry, entriesOfKin } from './kin-entries.ts';
import type { Scale } from './scale.ts';
import { someGenets } from './some-genets.ts';
import { response, tableOf } from './table.ts';
import type { TraitNote } from './trait-note.ts';
import { tryTerms } from './tried-terms.ts';

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

/** Choices between models are made on so many notes at most, by whole genets. */
const mostNotes = 3000;
const roundsForChoice = 20;

export function buildModel(
  notes: readonly TraitNote[],
  pedigree: readonly PedigreeEntry[] | null,
  first: ChosenModel,
  control: EvaluateControl,
): BuiltModel {
  const scale = chooseScale(notes, first, control.trait);
  const withKin = takeKinship(notes, pedigree, first, scale, control);
  const { kin } = withKin;
  const familyOf = kin && pedigree ? fullSibFamilies(pedigree) : null;
  const groups = [
    conditionCandidates(notes),
    ...(kin && familyOf ? [kinCandidates(notes, kin, familyOf)] : []),
  ];
  const columns = new Map([...withKin.chosen.columns, ...groups.flatMap((group) => [...group.columns])]);
  let chosen: ChosenModel = { ...withKin.chosen, columns };
  const base: Model = {
    response,
    fixed: chosen.fixed,
    random: chosen.random,
    ...(kin ? { additive: additiveTerm(kin.kinship, 'additive') } : {}),
  };
  const tried = tryTerms(
    rowsOf(tableOf(notes, chosen, scale), notes, someGenets(notes, mostNotes)),
    base,
    groups.flatMap((group) => group.tried),
    quiet(control),
  );
  chosen = {
    ...chosen,
    tookIntoAccount: [...chosen.tookIntoAccount, ...tried.took],
    considered: [...chosen.considered, ...tried.considered],
  };
  return { chosen, scale, table: tableOf(notes, chosen, scale), model: tried.model, kin, familyOf };
}

/** Kinship with γ chosen, where the choice of the model asks for it and the parentage can be. */
function takeKinship(
  notes: readonly TraitNote[],
  pedigree: readonly PedigreeEntry[] | null,
  chosen: ChosenModel,
  scale: Scale,
  control: EvaluateControl,
): { kin: Kin | null; chosen: ChosenModel } {
  if (pedigree === null || !chosen.kinship.used) return { kin: null, chosen };
  try {
    const entries = entriesOfKin(pedigree, new Set(notes.map(({ genet }) => genet)));
    const some = someGenets(notes, mostNotes);
    const ancestry = entriesOfAncestry(entries, some);
    const table = rowsOf(tableOf(notes, chosen, scale), notes, some);
    const { gamma, words } =
      control.gamma === undefined
        ? chooseFounderKinship(entries, some, (each) =>
            likelihoodAt(each, ancestry, table, chosen, quiet(control)),
          )
        : { gamma: control.gamma, words: [] };
    const kin = kinOf(entries, gamma);
    return {
      kin,
      chosen: { ...chosen, kinship: { ...chosen.kinship, words: [...chosen.kinship.words, ...words] } },
    };
  } catch (error) {
    if (!(error instanceof PedigreeError)) throw error;
    return { kin: null, chosen: withoutKinship(chosen, error) };
  }
}

function withoutKinship(chosen: ChosenModel, { problem, remedy }: PedigreeError): ChosenModel {
  const words = `The parentage on record cannot be, so each genet is judged by its own notes alone: ${problem}. ${remedy}.`;
  return {
    ...chosen,
    tookIntoAccount: chosen.tookIntoAccount.filter((took) => took !== chosen.kinship.took),
    couldNotSeparate: [words, ...chosen.couldNotSeparate],
    kinship: { used: false, took: null, words: [words] },
  };
}

function likelihoodAt(
  gamma: number,
  entries: readonly PedigreeEntry[],
  table: Table,
  chosen: ChosenModel,
  control: FitControl,
): number {
  const model: Model = {
    response,
    fixed: chosen.fixed,
    random: chosen.random.filter((term) => term === 'genet'),
    additive: additiveTerm(kinOf(entries, gamma).kinship, 'additive'),
  };
  try {
    return fitModel(table, model, control).result.remlLogLikelihood;
  } catch (error) {
    if (error instanceof ModelError) return -Infinity;
    throw error;
  }
}

/** Fits on the way to the model are not told of. */
const quiet = ({ isCancelled }: FitControl): FitControl => ({
  ...(isCancelled ? { isCancelled } : {}),
  maxIterations: roundsForChoice,
});

function rowsOf(table: Table, notes: readonly TraitNote[], genets: ReadonlySet<string>): Table {
  const rows = notes.flatMap(({ genet }, row) => (genets.has(genet) ? [row] : []));
  if (rows.length === notes.length) return table;
  return {
    columns: new Map([...table.columns].map(([name, cells]) => [name, rows.map((row) => cells[row]!)])),
  };
}
