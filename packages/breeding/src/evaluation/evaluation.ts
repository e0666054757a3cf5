import type { FittedModel, Model, Table } from '@keelrow/quant';
import type { ChosenModel } from './choosing/choose-model.ts';
import type { Depression } from './depression.ts';
import type { Kin } from './kin/kin.ts';
import type { Scale } from './scale.ts';
import type { TraitNote } from './trait-note.ts';
import type { WeightedFit } from './variances-in-doubt/weighted-fits.ts';

/** Estimates of one trait, ready to be asked about single genets and pairs. All but `notes` is on the scale of the sums. */
export interface Evaluation {
  readonly chosen: ChosenModel;
  readonly notes: readonly TraitNote[];
  readonly scale: Scale;
  readonly table: Table;
  readonly model: Model;
  readonly fitted: FittedModel;
  /** Fits at variances that may be the true ones, with their chances: errors are reckoned over all, estimates are `fitted`'s. */
  readonly fits: readonly WeightedFit[];
  /** Kinship of the genets; null where it was not used. */
  readonly kin: Kin | null;
  readonly familyOf: ((genet: string) => string) | null;
  readonly depression: Depression | null;
  readonly notedGenets: ReadonlySet<string>;
  /** Genets that have an estimate: the noted ones, and with kinship those that are kin to them. */
  readonly listed: readonly string[];
  /** Level of the average noted genet in an average season, bed and age among the notes. */
  readonly level: number;
}

/** Where nothing can be told; `chosen.impossible` says why. */
export interface NoEvaluation {
  readonly chosen: ChosenModel;
  readonly fitted: null;
}
