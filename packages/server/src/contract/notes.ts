import type { Lab, TraitSort } from '@keelrow/breeding/facts';

/** GET /api/traits */
export interface TraitShown {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly sort: TraitSort;
  readonly unit: string | null;
  readonly least: number | null;
  readonly most: number | null;
  readonly classes: readonly string[];
  readonly wanted: 'more' | 'less' | 'neither' | null;
  readonly how: string | null;
  readonly notes: number;
  /** Can be put on a number line and so be ranked. */
  readonly estimable: boolean;
}

/** GET /api/note-grid?place=&traits=a,b&year=2030 — plants in walking order, with their notes of that year. */
export interface NoteGrid {
  readonly place: { readonly code: string; readonly name: string | null } | null;
  readonly traits: readonly TraitShown[];
  readonly year: number;
  readonly rows: readonly NoteGridRow[];
}
export interface NoteGridRow {
  readonly plant: string;
  readonly plantCode: string;
  readonly genetCode: string;
  readonly genetName: string | null;
  readonly place: string | null;
  readonly walk: number | null;
  /** By trait code, the latest standing note of the year. */
  readonly cells: Readonly<Record<string, NoteCell | undefined>>;
  /** By trait code, the value of the latest earlier year. */
  readonly before: Readonly<Record<string, { readonly year: number; readonly shown: string } | undefined>>;
}
export interface NoteCell {
  readonly id: string;
  readonly on: string;
  readonly state: string;
  readonly value: number | string | Lab | null;
  readonly by: string | null;
  /** Number of standing notes of this trait and year on the plant. */
  readonly count: number;
}

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

/** GET /api/beds — everything needed to draw the garden to scale. */
export interface BedPlan {
  readonly sites: readonly { readonly code: string; readonly name: string | null }[];
  readonly beds: readonly BedShown[];
}
export interface BedShown {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly site: string | null;
  /** Corner within the site, size, and angle counter-clockwise from east; null where never measured. */
  readonly eastM: number | null;
  readonly northM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  readonly turned: number;
  readonly light: string | null;
  readonly moisture: string | null;
  readonly soil: string | null;
  readonly plants: number;
}
/** GET /api/beds/:code?trait=&year= — plants of one bed, with the value to colour them by. */
export interface BedPlants {
  readonly bed: BedShown;
  readonly trait: TraitShown | null;
  readonly plants: readonly {
    readonly id: string;
    readonly code: string;
    readonly genet: string;
    readonly genetCode: string;
    readonly genetName: string | null;
    readonly eastM: number | null;
    readonly northM: number | null;
    readonly walk: number | null;
    readonly alive: boolean;
    readonly plantedOn: string | null;
    readonly value: number | string | null;
    readonly shown: string | null;
  }[];
}
