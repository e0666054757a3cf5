import type { NoteValue, Units } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';

/** What every entry is given: what it is for, what stands in its box, and what takes a value. */
export interface EntryProps {
  readonly trait: TraitShown;
  readonly units: Units;
  /** The day that notes are of. */
  readonly on: string;
  readonly today: string;
  readonly typed: string;
  readonly setTyped: (typed: string) => void;
  /** Takes a value as it is stored; typed is what the box is to hold if it is asked about, refused or undone. */
  readonly keep: (value: NoteValue, typed?: string, way?: string) => void;
  /** Numbers, in the unit shown, that this trait usually has here. */
  readonly usual: readonly number[];
}
