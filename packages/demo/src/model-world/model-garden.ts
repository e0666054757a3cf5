import type { TraitNote } from '@keelrow/breeding/evaluation';
import type { PedigreeEntry } from '@keelrow/breeding/pedigree';

/** A trait of the model world: normal throughout, in a unit of its own. */
export interface ModelTrait {
  readonly name: string;
  readonly mean: number;
  /** Variances of the model's terms, in the square of the unit. */
  readonly variances: {
    readonly additive: number;
    readonly genet: number;
    readonly plant: number;
    readonly bed: number;
    readonly residual: number;
  };
  /** Goes the other way than the rest: its correlations with those that do not are below 0. */
  readonly opposed?: boolean;
}

export interface ModelWorldOptions {
  /** The same seed gives the same garden. */
  readonly seed: number;
  readonly traits: readonly ModelTrait[];
  /** Correlation between any two traits, less its sign, alike in additive, genet, plant and residual effects; 0 unless said. */
  readonly correlation?: number;
  /** γ = 2θ within each of the three founder groups; 0.5 unless said. */
  readonly gamma?: number;
  /** Seedlings of each generation after the founders, about; 130 unless said. */
  readonly seedlings?: number;
  /** Generations, founders included; 4 unless said. Each takes two seasons. */
  readonly generations?: number;
}

/** A garden drawn from the model that evaluations fit, with its truth. */
export interface ModelGarden {
  /** Notes of each trait, by its name. */
  readonly notes: ReadonlyMap<string, readonly TraitNote[]>;
  readonly pedigree: readonly PedigreeEntry[];
  /** 0 for founders. */
  generationOf(genet: string): number;
  /**
   * True value of a grown plant of the base, seasons, beds and people by their shares of the trait's notes. A genet's own
   * true value is this and its total.
   */
  level(trait: string): number;
  /** True values, as differences from the base: unrelated founders of no group. */
  additive(genet: string, trait: string): number;
  /** Additive and own effect of the genet together. */
  total(genet: string, trait: string): number;
}
