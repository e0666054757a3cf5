import type { NoteValue, Units } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import type { ReactNode } from 'react';

/** What every entry is given: what it is for, what stands in its box, and what takes a value. */
export interface EntryProps {
  readonly trait: TraitShown;
  readonly units: Units;
  /** Today or yesterday; left out where the value says its own day. */
  readonly dayChoice: ReactNode;
  readonly today: string;
  readonly typed: string;
  readonly setTyped: (typed: string) => void;
  /** Takes a value as it is stored; typed is what the box is to hold if it is asked about, refused or undone. */
  readonly keep: (value: NoteValue, typed?: string, way?: string) => void;
  /** Numbers, in the unit shown, that this trait usually has here. */
  readonly usual: readonly number[];
}
