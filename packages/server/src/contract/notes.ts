import type { Lab } from '@keelrow/breeding/facts';

/**
 * GET /api/traits answers with TraitShown[]; GET /api/note-grid?place=&traits=a,b&year=2030 with a NoteGrid;
 * GET /api/beds with a BedPlan; GET /api/beds/:code?trait=&year= with BedPlants.
 */
export type {
  BedPlan,
  BedPlants,
  BedShown,
  NoteCell,
  NoteGrid,
  NoteGridRow,
  PlantInBed,
  TraitShown,
} from '@keelrow/records';

/** POST /api/notes — each note is stored or comes back with its reason; ids are made by the sender (UUIDv7). */
export interface NotesToStore {
  readonly notes: readonly NoteToStore[];
}
export interface NoteToStore {
  readonly id: string;
  readonly plant: string;
  readonly trait: string;
  readonly on: string;
  readonly state?: string;
  readonly value?: number | string | Lab | null;
  /** The note that this one corrects. */
  readonly replaces?: string;
  readonly remark?: string;
}
export interface NotesStored {
  readonly results: readonly { readonly id: string; readonly problem: string | null }[];
}
