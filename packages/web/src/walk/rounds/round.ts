/** Which way a bed is walked. */
export interface Direction {
  /** numbered: by the walking numbers on record; rows: each row from the same end; serpentine: turning at each end. */
  readonly way: 'numbered' | 'rows' | 'serpentine';
  /** Whether one starts where the bed's length begins or where it ends; the first or last number. */
  readonly end: 'first' | 'last';
  /** Whether one starts at the row nearest to the bed's first corner or at the one farthest from it. */
  readonly side: 'first' | 'last';
}

/** A trait of a plant: what one stands before. */
export interface Stop {
  /** Id of the plant. */
  readonly plant: string;
  /** Id of the trait. */
  readonly trait: string;
}

/** One entering that can be undone. */
export interface Step extends Stop {
  /** Ids of the facts entered, in their order. */
  readonly facts: readonly string[];
  /** What was entered, for the button that undoes it. */
  readonly words: string;
  /** What stood in the box, to be put back. */
  readonly typed: string;
}

/** What was begun in a box and not entered yet. */
interface Draft extends Stop {
  readonly typed: string;
}

/** What the breeder goes out to note; it stays on the phone until it is put away. */
export interface Round {
  readonly id: string;
  readonly name: string;
  /** Ids of beds, in the order in which they are walked. */
  readonly beds: readonly string[];
  /** Ids of traits, in the order in which they are noted. */
  readonly traits: readonly string[];
  readonly direction: Direction;
  /** The first day whose notes count for this walk. */
  readonly since: string;
  /** Null before the first plant and after the last. */
  readonly at: Stop | null;
  /** The end of the walk was reached. */
  readonly ended: boolean;
  /** Where the walk goes on after a plant of another bed was jumped to. */
  readonly backTo: Stop | null;
  /** The last ones that can be undone, latest last. */
  readonly steps: readonly Step[];
  readonly drafts: readonly Draft[];
  /** Day for which yesterday was chosen: on any other day notes are today's again. */
  readonly yesterdayOf: string | null;
}

/** How many steps can be undone. */
export const stepsKept = 20;
