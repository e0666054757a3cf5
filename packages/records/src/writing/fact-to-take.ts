import type { AnyRow } from '@keelrow/breeding/facts';
import type { ActBy } from './act.ts';

/** Kinds that people hand over from the beds; photos come before the notes that name them. */
export const kindsHandedOver = ['photos', 'notes', 'decisions', 'identities', 'moves'] as const;
export type KindHandedOver = (typeof kindsHandedOver)[number];

/** A fact made elsewhere, with its own id (UUIDv7). */
export type FactToTake = RowToTake | WithdrawalToTake;

export interface RowToTake {
  readonly kind: KindHandedOver;
  readonly id: string;
  /** Without its id; references as codes or ids. */
  readonly row: AnyRow;
  /** Id of the fact that it corrects. */
  readonly replaces?: string;
}

export interface WithdrawalToTake {
  readonly kind: 'withdrawal';
  /** Of the withdrawal itself. */
  readonly id: string;
  readonly of: { readonly kind: 'notes'; readonly id: string };
  readonly reason: string;
}

/** What became of a fact; problem null: it is stored. */
export interface Taken {
  readonly id: string;
  readonly problem: string | null;
}

/** The sender; one who is not trusted corrects and withdraws only what the same person made. */
export interface Sender extends ActBy {
  readonly mayCorrectOthers: boolean;
}
