import type { AnyRow, KindName, TraitSort } from '@keelrow/breeding/facts';

/** GET /api/plants?search=&origin=&place=&decision=&alive=&sort=&descending=&offset=&limit= */
export interface PlantList {
  readonly total: number;
  readonly rows: readonly PlantListRow[];
  /** Values to filter by. */
  readonly origins: readonly string[];
  readonly places: readonly { readonly code: string; readonly name: string | null }[];
}

/** A row of the Plants screen: one genet and what stands of it. */
export interface PlantListRow {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly taxon: string | null;
  readonly origin: string | null;
  readonly seedParent: string;
  readonly pollenParent: string;
  readonly raisedIn: number | null;
  readonly standard: boolean;
  /** Plants alive now, and all ever. */
  readonly alive: number;
  readonly plants: number;
  /** Codes of the places where living plants stand. */
  readonly places: readonly string[];
  readonly notes: number;
  readonly lastNotedOn: string | null;
  readonly decision: string | null;
}

export type PlantSort =
  | 'code'
  | 'name'
  | 'taxon'
  | 'origin'
  | 'raisedIn'
  | 'alive'
  | 'notes'
  | 'lastNotedOn'
  | 'decision';

/** GET /api/genets/:idOrCode */
export interface GenetPage {
  readonly genet: PlantListRow & { readonly record: AnyRow };
  readonly plants: readonly PlantOfGenet[];
  readonly family: Family;
  readonly noteSummary: readonly TraitSummary[];
  readonly decisions: readonly DecisionShown[];
  /** Terms that bind it, its own and those that descend from ancestors. */
  readonly terms: readonly {
    readonly code: string;
    readonly asks: string;
    readonly fromWhom: string;
    readonly through: string;
  }[];
  /** Plain lines of caution: poison, protection, rights. */
  readonly cautions: readonly string[];
}

export interface PlantOfGenet {
  readonly id: string;
  readonly code: string;
  readonly place: string | null;
  readonly placeName: string | null;
  readonly walk: number | null;
  readonly plantedOn: string | null;
  readonly goneOn: string | null;
  readonly goneWhy: string | null;
  readonly raisedAs: string | null;
  /** Set where the plant's label names another genet. */
  readonly labelledAs: string | null;
}

/** Ancestors and descendants around one genet, for the drawn tree. */
export interface Family {
  readonly self: string;
  readonly members: readonly FamilyMember[];
  readonly links: readonly FamilyLink[];
  /** Descendants or ancestors beyond what is drawn. */
  readonly more: { readonly up: number; readonly down: number };
}
export interface FamilyMember {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly origin: string | null;
  /** 0 the genet itself, −1 its parents, 1 its children. */
  readonly generation: number;
  readonly alive: boolean;
  /** Number of full sibs that this member stands for, where many children are drawn as one. */
  readonly standsFor?: number;
}
export interface FamilyLink {
  readonly parent: string;
  readonly child: string;
  readonly side: 'seed' | 'pollen' | 'self' | 'clone';
  readonly chance: number;
}

export interface TraitSummary {
  readonly trait: string;
  readonly name: string;
  readonly sort: TraitSort;
  readonly unit: string | null;
  readonly byYear: readonly {
    readonly year: number;
    readonly notes: number;
    /** Mean of numbers; for dates the mean day of the year; null for words. */
    readonly mean: number | null;
    readonly least: number | null;
    readonly most: number | null;
    readonly words: readonly string[];
  }[];
}

export interface DecisionShown {
  readonly on: string;
  readonly decision: string;
  readonly reason: string | null;
  readonly by: string | null;
  readonly about: string;
}

/** GET /api/history/:kind/:id — newest first. */
export interface HistoryEntry {
  readonly at: string;
  readonly what: 'made' | 'changed' | 'replaced' | 'withdrawn';
  readonly by: string | null;
  readonly device: string | null;
  readonly via: string;
  readonly reason: string | null;
  /** Each changed field with its value before and after, in the form files use. */
  readonly fields: readonly {
    readonly field: string;
    readonly before: string | null;
    readonly after: string | null;
  }[];
}

/** GET /api/records/:kind?search=&offset=&limit= */
export interface RecordList {
  readonly kind: KindName;
  readonly total: number;
  readonly rows: readonly (AnyRow & { readonly id: string })[];
}

/** POST /api/records/:kind { row } · PATCH /api/records/:kind/:id { fields, reason? } */
export interface RecordStored {
  readonly id: string;
  readonly row: AnyRow;
}
