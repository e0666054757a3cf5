import type { Scale } from '../evaluation/index.ts';
import type { Units } from '../facts/index.ts';
import { beyondNotes, beyondTrait } from './beyond-reach.ts';
import type { Brief, BriefLimit, BriefTrait } from './brief.ts';
import { type ClassPrior, classPrior } from './class-chances.ts';
import type { BriefEvidence } from './evidence.ts';
import { lineKey, type Requirement, requirementOf } from './requirement.ts';
import { wantedInWords } from './words.ts';

/** An interval on a line, in the joint values' order and on the scale of the sums. */
export interface PlacedInterval {
  readonly at: number;
  readonly low: number;
  readonly high: number;
}

/** A limit made ready to be held against genets. */
export interface HeldLimit {
  readonly limit: BriefLimit;
  readonly trait: BriefTrait;
  readonly requirement: Requirement;
  /** What it is on: the trait's name, or `Flowering`. */
  readonly subject: string;
  readonly words: string;
  /** What its words speak. */
  readonly units: Units;
  /** Why nothing can be told; null where it can. */
  readonly unknown: string | null;
  /** Why every plant or none meets it; null where it tells plants apart. */
  readonly beyond: string | null;
  readonly intervals: readonly PlacedInterval[];
  /** Where the three coordinates of its colour stand in the joint values. */
  readonly axes: readonly [number, number, number] | null;
  readonly prior: ClassPrior | null;
}

export const heldLimits = (brief: Brief, evidence: BriefEvidence): HeldLimit[] =>
  brief.limits.map((limit) => heldLimit(limit, evidence));

function heldLimit(limit: BriefLimit, evidence: BriefEvidence): HeldLimit {
  const { traits, joint, unknown, classes, units = 'metric' } = evidence;
  const trait = traits.find(({ code }) => code === limit.trait)!;
  const requirement = requirementOf(limit, traits);
  const flowering = requirement.kind === 'intervals' && requirement.intervals.length === 2 && forWeeks(limit);
  const words = `${flowering ? 'In flower' : trait.name} ${wantedInWords(limit, trait, units)}`;
  const base = {
    limit,
    trait,
    requirement,
    subject: flowering ? 'Flowering' : trait.name,
    words,
    units,
    unknown: null,
    beyond: beyondIn(requirement, words, evidence),
    intervals: [],
    axes: null,
    prior: null,
  };
  if (requirement.kind === 'classes') {
    const notes = classes.get(trait.code);
    const prior = notes ? classPrior(notes) : null;
    return prior ? { ...base, prior } : { ...base, unknown: noNotes(trait) };
  }
  const lines =
    requirement.kind === 'colour' ? requirement.lines : requirement.intervals.map(({ line }) => line);
  const places = lines.map((line) => joint.keys.indexOf(lineKey(line)));
  const missing = places.indexOf(-1);
  if (missing >= 0) return { ...base, unknown: unknown.get(lineKey(lines[missing]!)) ?? noNotes(trait) };
  if (requirement.kind === 'colour') return { ...base, axes: [places[0]!, places[1]!, places[2]!] };
  return {
    ...base,
    intervals: requirement.intervals.map(({ low, high }, i) => {
      const at = places[i]!;
      const [from, to] = onScale(low, high, joint.scales[at]!);
      return { at, low: from, high: to };
    }),
  };
}

/** Why every plant or none meets an interval, first by what its trait can be, then by what it was noted as. */
function beyondIn(
  requirement: Requirement,
  words: string,
  { traits, reach, units = 'metric' }: BriefEvidence,
): string | null {
  if (requirement.kind !== 'intervals') return null;
  const asked = requirement.intervals.map(({ line, low, high }) => ({
    words,
    low,
    high,
    trait: traits.find(({ code }) => code === line.trait)!,
    noted: reach.get(lineKey(line)),
  }));
  const byTrait = asked.map((one) => beyondTrait(one, units));
  const byNotes = asked.map((one) => (one.noted ? beyondNotes(one, one.noted, units) : null));
  const both = [byTrait, byNotes];
  // Of two intervals one that no plant meets is enough, while all have to meet both.
  return (
    (
      both.flat().find((one) => one?.meets === 'none') ??
      both.find((each) => each.every((one) => one?.meets === 'all'))?.[0] ??
      (asked.length === 1 ? byTrait[0] : null) ??
      null
    )?.why ?? null
  );
}

/** Whether a limit asks for weeks alone. */
const forWeeks = ({ fromWeek, toWeek, atLeast, atMost }: BriefLimit): boolean =>
  (fromWeek !== null || toWeek !== null) && atLeast === null && atMost === null;

const noNotes = ({ name }: BriefTrait): string =>
  `There are no notes of ${name} yet; note it on some genets, on two plants or in two years each, and it can be told.`;

/**
 * Ends of an interval in the trait's own unit on the scale of the sums. A true value that the sums put past the trait's
 * limits is shown as at the limit, so an end at the limit leaves that side open; one beyond it cannot be met.
 */
function onScale(low: number, high: number, { to, limits: [least, most] }: Scale): [number, number] {
  return [
    low <= least ? Number.NEGATIVE_INFINITY : low > most ? Number.POSITIVE_INFINITY : to(low),
    high >= most ? Number.POSITIVE_INFINITY : high < least ? Number.NEGATIVE_INFINITY : to(high),
  ];
}
