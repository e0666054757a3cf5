import type { Lab } from '../facts/index.ts';
import { keptAs } from '../facts/index.ts';
import type { BriefLimit, BriefTrait } from './brief.ts';
import { firstDayOfWeek, lastDayOfWeek } from './weeks.ts';

/** A number line on which every genet has a true value: a trait's, or one coordinate of its colour. */
export interface Line {
  readonly trait: string;
  readonly axis: 'l' | 'a' | 'b' | null;
}

/** From low to high on a line, ends included, in the trait's unit; an open end is infinite. */
interface Interval {
  readonly line: Line;
  readonly low: number;
  readonly high: number;
}

/** What a limit asks of a genet's true values. */
export type Requirement =
  | { readonly kind: 'intervals'; readonly intervals: readonly Interval[] }
  | {
      readonly kind: 'colour';
      readonly lines: readonly [Line, Line, Line];
      readonly colour: Lab;
      readonly within: number;
    }
  | { readonly kind: 'classes'; readonly trait: string; readonly classes: readonly string[] };

const firstFlower = 60;
const fullFlower = 65;
const endOfFlower = 69;

/** Whether a trait is a stage of flowering: BBCH 60 (first flower) to 69 (end of flower). */
const ofFlowering = ({ sort, bbch }: BriefTrait): boolean =>
  sort === 'staged' && bbch != null && bbch >= firstFlower && bbch <= endOfFlower;

/** A requirement of a limit that has passed `readBrief`. traits: all of the programme, with the number of their notes. */
export function requirementOf(limit: BriefLimit, traits: readonly BriefTrait[]): Requirement {
  const trait = traits.find(({ code }) => code === limit.trait)!;
  const line = (axis: Line['axis'], code = trait.code): Line => ({ trait: code, axis });
  switch (keptAs[trait.sort]) {
    case 'colour':
      return {
        kind: 'colour',
        lines: [line('l'), line('a'), line('b')],
        colour: limit.colour!,
        within: limit.colourWithin!,
      };
    case 'class':
      return { kind: 'classes', trait: trait.code, classes: limit.classes! };
    default: {
      const intervals: Interval[] = [];
      if (limit.atLeast !== null || limit.atMost !== null)
        intervals.push({
          line: line(null),
          low: limit.atLeast ?? Number.NEGATIVE_INFINITY,
          high: limit.atMost ?? Number.POSITIVE_INFINITY,
        });
      if (limit.fromWeek !== null || limit.toWeek !== null) intervals.push(...weeksOf(limit, trait, traits));
      return { kind: 'intervals', intervals };
    }
  }
}

/**
 * In flower at some time within the weeks: first flower not after their last day, and end of flower not before their first
 * day. Where the end of flower is not noted, full flower stands for it, so that less time in flower is counted than there
 * is; where only one stage is noted, or the trait is no stage of flowering, its date lies within the weeks.
 */
function weeksOf(limit: BriefLimit, trait: BriefTrait, traits: readonly BriefTrait[]): Interval[] {
  const first = limit.fromWeek === null ? Number.NEGATIVE_INFINITY : firstDayOfWeek(limit.fromWeek);
  const last = limit.toWeek === null ? Number.POSITIVE_INFINITY : lastDayOfWeek(limit.toWeek);
  const stage = (bbch: number) =>
    trait.bbch === bbch
      ? trait
      : traits.find((other) => other.sort === 'staged' && other.bbch === bbch && other.notes > 0);
  const begin = ofFlowering(trait) ? stage(firstFlower) : undefined;
  const end = ofFlowering(trait) ? (noted(stage(endOfFlower)) ?? noted(stage(fullFlower))) : undefined;
  if (begin && end && noted(begin)) {
    return [
      { line: { trait: begin.code, axis: null }, low: Number.NEGATIVE_INFINITY, high: last },
      { line: { trait: end.code, axis: null }, low: first, high: Number.POSITIVE_INFINITY },
    ];
  }
  return [{ line: { trait: trait.code, axis: null }, low: first, high: last }];
}

const noted = (trait: BriefTrait | undefined): BriefTrait | undefined =>
  trait && trait.notes > 0 ? trait : undefined;

/** The lines that requirements need, each once. */
export function linesOf(requirements: readonly Requirement[]): Line[] {
  const lines = new Map<string, Line>();
  for (const requirement of requirements) {
    const own =
      requirement.kind === 'intervals'
        ? requirement.intervals.map(({ line }) => line)
        : requirement.kind === 'colour'
          ? requirement.lines
          : [];
    for (const line of own) lines.set(lineKey(line), line);
  }
  return [...lines.values()];
}

export const lineKey = ({ trait, axis }: Line): string => (axis === null ? trait : `${trait} ${axis}`);
