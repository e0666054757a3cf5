import type { AnyRow, KindName } from '@keelrow/breeding/facts';
import type { PlantListRow, GenetPage as StoredGenetPage } from '@keelrow/records';

export type {
  DecisionShown,
  Family,
  FamilyLink,
  FamilyMember,
  HistoryEntry,
  PlantListRow,
  PlantOfGenet,
  TraitSummary,
} from '@keelrow/records';

/** GET /api/plants?search=&origin=&place=&decision=&alive=&sort=&descending=&offset=&limit= */
export interface PlantList {
  readonly total: number;
  readonly rows: readonly PlantListRow[];
  /** Values to filter by. */
  readonly origins: readonly string[];
  readonly places: readonly { readonly code: string; readonly name: string | null }[];
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
export interface GenetPage extends Omit<StoredGenetPage, 'profile' | 'protection'> {
  /** Plain lines of caution: poison, protection, rights. */
  readonly cautions: readonly string[];
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
