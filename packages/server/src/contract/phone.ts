import type { AnyRow, Lab, ProgrammeSettings } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/records';
import type { Role } from './programme.ts';

/**
 * GET /api/phone/holdings?since=SEQ (recorder): all that a walk needs. Without `since`, or where the server cannot
 * tell what changed, whole.
 */
export interface Holdings {
  /** Number of the latest act; the next question's `since`. */
  readonly upTo: number;
  /** Replaces all that the phone holds; else only plants and notes that changed are in it. */
  readonly whole: boolean;
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
  /** Small lists come whole each time. */
  readonly places: readonly HeldPlace[];
  readonly traits: readonly TraitShown[];
  readonly briefs: readonly { readonly id: string; readonly code: string; readonly name: string | null }[];
  /** Crosses not yet harvested; parents as files write them. */
  readonly crosses: readonly HeldCross[];
  readonly plants: readonly HeldPlant[];
  /** Standing notes on plants of this and the last three years. */
  readonly notes: readonly HeldNote[];
  /** Ids of plants and notes that the phone should forget. */
  readonly gone: readonly string[];
}

export interface HeldPlace {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly sort: string;
  /** Id of the place that it lies in. */
  readonly within: string | null;
  readonly walk: number | null;
  readonly eastM: number | null;
  readonly northM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  /** Angle counter-clockwise from east. */
  readonly turned: number;
}

export interface HeldCross {
  readonly id: string;
  readonly code: string;
  readonly seedParent: string | null;
  readonly pollenParent: string | null;
}

export interface HeldPlant {
  readonly id: string;
  readonly code: string;
  /** Id of the genet that the plant is held to be now. */
  readonly genet: string;
  readonly genetCode: string;
  readonly genetName: string | null;
  /** `A × B`; empty where unknown. */
  readonly parents: string;
  /** Id of its bed, or of the place that it stands in where that lies in no bed. */
  readonly bed: string | null;
  readonly walk: number | null;
  readonly eastM: number | null;
  readonly northM: number | null;
  readonly plantedOn: string | null;
  readonly goneOn: string | null;
}

export interface HeldNote {
  readonly id: string;
  /** Id of the plant. */
  readonly plant: string;
  /** Id of the trait. */
  readonly trait: string;
  readonly on: string;
  readonly state: string;
  readonly value: number | string | Lab | null;
  /** Code of the person. */
  readonly by: string | null;
  readonly remark: string | null;
  /** Hash of its picture. */
  readonly photo: string | null;
}

/**
 * POST /api/phone/facts (recorder), at most 500 facts. Each is stored or comes back with its reason; one that is sent
 * twice is stored once.
 */
export interface FactsToTake {
  /** The phone's own clock, ISO 8601. */
  readonly saidAt: string;
  readonly facts: readonly FactToTake[];
}

export type FactToTake =
  | {
      readonly kind: 'notes' | 'photos' | 'decisions' | 'identities' | 'moves';
      /** UUIDv7, made on the phone. */
      readonly id: string;
      /** Without its id; references as codes or ids. */
      readonly row: AnyRow;
      /** Id of the fact that it corrects. */
      readonly replaces?: string;
    }
  | {
      readonly kind: 'withdrawal';
      /** Of the withdrawal itself. */
      readonly id: string;
      readonly of: { readonly kind: 'notes'; readonly id: string };
      readonly reason: string;
    };

export interface FactsTaken {
  /** In the order in which they were sent; problem null: it is stored. */
  readonly results: readonly { readonly id: string; readonly problem: string | null }[];
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
  readonly phones: readonly PhoneShown[];
  readonly people: readonly {
    readonly id: string;
    readonly code: string;
    readonly name: string | null;
    readonly role: Role | null;
    readonly leftOn: string | null;
  }[];
}

/** POST /api/phones/:id/shut-out (owner) ends its key; what it handed over stays. */
export interface PhoneShown {
  readonly id: string;
  readonly code: string;
  /** Code of the person who carries it. */
  readonly person: string;
  readonly role: Role;
  readonly letInOn: string;
  /** Server's clock, UTC, ISO 8601. */
  readonly lastSeenAt: string | null;
  readonly shutOutOn: string | null;
}

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

/** Standing notes of one plant, trait and day (stages: year) that say different things and were made apart. */
export interface UnsettledCase {
  readonly plant: { readonly id: string; readonly code: string };
  readonly trait: {
    readonly id: string;
    readonly code: string;
    readonly name: string;
    readonly unit: string | null;
  };
  readonly notes: readonly {
    readonly id: string;
    readonly on: string;
    readonly state: string;
    readonly value: number | string | Lab | null;
    readonly by: string | null;
    readonly device: string | null;
    /** When it was made: what the phone said, else when it was stored; ISO 8601. */
    readonly at: string;
    readonly remark: string | null;
    readonly photo: string | null;
  }[];
}

/** POST /api/unsettled/settle (owner): notes struck out are withdrawn with the reason and stay in the history. */
export interface Settled {
  readonly keep: readonly string[];
  readonly strike: readonly string[];
  readonly reason: string;
}
