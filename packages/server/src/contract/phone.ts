import type { ProgrammeSettings } from '@keelrow/breeding/facts';
import type {
  FactToTake,
  PersonListed,
  PhoneLetIn,
  RecordsHeld,
  Taken,
  UnsettledCase,
} from '@keelrow/records';
import type { Role } from './programme.ts';

/**
 * GET /api/phone/holdings?since=SEQ (recorder): all that a walk needs. Without `since`, or where the server cannot
 * tell what changed, whole.
 */
export interface Holdings extends RecordsHeld {
  readonly settings: Pick<ProgrammeSettings, 'name' | 'timeZone' | 'units'>;
  /** Id null where the server was started for its own computer alone. */
  readonly person: {
    readonly id: string | null;
    readonly code: string;
    readonly name: string;
    readonly role: Role;
  };
  /** Today's date in the garden's time zone by the server's clock. */
  readonly today: string;
}
export type { FactToTake, HeldCross, HeldNote, HeldPlace, HeldPlant } from '@keelrow/records';

/**
 * POST /api/phone/facts (recorder), at most 500 facts. Each is stored or comes back with its reason; one that is sent
 * twice is stored once.
 */
export interface FactsToTake {
  /** The phone's own clock, ISO 8601. */
  readonly saidAt: string;
  readonly facts: readonly FactToTake[];
}

export interface FactsTaken {
  /** In the order in which they were sent; problem null: it is stored. */
  readonly results: readonly Taken[];
  readonly upTo: number;
}

/**
 * PUT /api/photos/:hash (recorder): the body is the picture. Answers with { hash } only when it is on the disk and its
 * SHA-256 is the hash named.
 */
export interface PhotoHandedOver {
  readonly hash: string;
}

/** GET /api/phones (owner) */
export interface Phones {
  readonly phones: readonly PhoneLetIn[];
  readonly people: readonly PersonListed[];
  /** Where phones reach this server, surest first; empty where none can. */
  readonly origins: readonly string[];
  /** Where a phone that comes for the first time is led through trusting this computer; null where it need not. */
  readonly helper: string | null;
  /** SHA-256 fingerprint of the certificate that it gives out, to be compared. */
  readonly fingerprint: string | null;
}
/** POST /api/phones/:id/shut-out (owner) ends its key; what it handed over stays. */
export type { PersonListed, PhoneLetIn } from '@keelrow/records';

/** POST /api/phones/let-in (owner) answers with a PhoneKey. */
export interface PhoneToLetIn {
  /** Id of the person. */
  readonly person: string;
}

/** The phone opens `${origin}/sign-in#key=${key}`, once, until then. */
export interface PhoneKey {
  readonly key: string;
  readonly until: string;
}

/** POST /api/sign-in; with a phone's key the server makes the device and the cookie is that phone's. */
export interface SignIn {
  readonly key: string;
  /** What the phone calls itself, such as “Android, Chrome”. */
  readonly device?: string;
}

/** GET /api/unsettled (owner) */
export interface Unsettled {
  readonly cases: readonly UnsettledCase[];
}

export type { UnsettledCase } from '@keelrow/records';

/** POST /api/unsettled/settle (owner): notes struck out are withdrawn with the reason and stay in the history. */
export interface Settled {
  readonly keep: readonly string[];
  readonly strike: readonly string[];
  readonly reason: string;
}
