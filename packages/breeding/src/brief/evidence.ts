import type { JointValues } from '../evaluation/index.ts';
import type { Units } from '../facts/index.ts';
import type { NotedReach } from './beyond-reach.ts';
import type { BriefTrait } from './brief.ts';
import type { ClassEvidence } from './class-chances.ts';

/** What a brief is held against. */
export interface BriefEvidence {
  /** All traits of the programme. */
  readonly traits: readonly BriefTrait[];
  /** The genets to be ranked. */
  readonly genets: readonly BriefGenet[];
  /** True values on the lines that can be told, keyed by `lineKey`. */
  readonly joint: JointValues;
  /** Why nothing can be told of a line, by its key. */
  readonly unknown: ReadonlyMap<string, string>;
  /** Notes on each genet, by trait code. */
  readonly notes: ReadonlyMap<string, ReadonlyMap<string, number>>;
  /** From and to what each line was noted, by its key; lines without notes are absent. */
  readonly reach: ReadonlyMap<string, NotedReach>;
  /** What classed traits of the brief were noted as, by trait code. */
  readonly classes: ReadonlyMap<string, ClassEvidence>;
  /** What the words speak; metric unless given. */
  readonly units?: Units;
}

export interface BriefGenet {
  readonly id: string;
  readonly code: string;
  readonly name: string | null;
  readonly standard: boolean;
}

export interface MatchControl {
  readonly isCancelled?: () => boolean;
  /** Share of the genets that are done. */
  readonly onProgress?: (share: number) => void;
}
