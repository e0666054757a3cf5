import type { AnyRow } from '@keelrow/breeding/facts';
import type { FactToTake } from '@keelrow/server/contract';

type RowKind = Exclude<FactToTake['kind'], 'withdrawal'>;

/** A fact as a screen enters it. */
export interface NewFact {
  readonly kind: RowKind;
  /** UUIDv7; made on entering where it is left out. */
  readonly id?: string;
  /** Without its id; references as codes or ids. */
  readonly row: AnyRow;
  /** Id of the fact that it corrects: a stored one, or one that still waits. */
  readonly replaces?: string;
  /** The fact in words for lists: `2031-004-3/1 Height 92 cm`. */
  readonly words: string;
  /** What was typed, where a box is to show it again. */
  readonly typed?: string;
  /** Row of the fact that it corrects, where the phone's holdings have not got it: what undo puts back. */
  readonly former?: AnyRow;
}

/** What a note corrected, so that undo can put it back; and what that one had corrected before. */
export interface Former {
  readonly id: string;
  readonly row: AnyRow;
  readonly before?: Former;
}

/** waiting: not yet confirmed by the server; refused: the server said why not; taken: confirmed, kept a while for undo. */
type FactState = 'waiting' | 'refused' | 'taken';

/** A fact as it lies on the phone's disk. */
export interface KeptFact {
  /** Order of making on this phone, whatever its clock says. */
  readonly order?: number;
  readonly id: string;
  readonly kind: FactToTake['kind'];
  /** Null for a withdrawal. */
  readonly row: AnyRow | null;
  readonly replaces?: string;
  /** For a withdrawal: id of the note that it takes back, and why. */
  readonly of?: string;
  readonly reason?: string;
  readonly madeAt: string;
  readonly state: FactState;
  readonly problem: string | null;
  readonly words: string;
  readonly typed?: string;
  readonly former?: Former;
  /** Undo made it: it says once more what the note of this id said. */
  readonly restates?: string;
  /** It was put into a request: the server may have it, answer or not. */
  readonly sent: boolean;
  /** Number of the act after which holdings tell of it. */
  readonly takenUpTo?: number;
}

/** What has not been taken yet, for lists. */
export type WaitingFact = KeptFact & { readonly state: 'waiting' | 'refused' };

/** The fact as the server takes it. */
export function factToTake(fact: KeptFact): FactToTake {
  const { id, kind, row, replaces, of, reason } = fact;
  if (kind === 'withdrawal') return { kind, id, of: { kind: 'notes', id: of! }, reason: reason! };
  return { kind, id, row: row!, ...(replaces === undefined ? {} : { replaces }) };
}
