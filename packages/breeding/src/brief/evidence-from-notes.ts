import { type FitControl, seededRandom } from '@keelrow/quant';
import { evaluate, type JointLine, jointValues, type TraitNote } from '../evaluation/index.ts';
import type { Units } from '../facts/index.ts';
import type { PedigreeEntry } from '../pedigree/index.ts';
import type { NotedReach } from './beyond-reach.ts';
import type { Brief, BriefTrait } from './brief.ts';
import type { ClassEvidence } from './class-chances.ts';
import type { BriefEvidence, BriefGenet } from './evidence.ts';
import type { BriefMatch } from './match.ts';
import { matchBrief } from './match-brief.ts';
import { type Line, lineKey, linesOf, requirementOf } from './requirement.ts';

/** A brief and the records that it is held against. */
export interface BriefData {
  readonly brief: Brief;
  readonly traits: readonly BriefTrait[];
  /** Living genets, to be ranked. */
  readonly genets: readonly BriefGenet[];
  readonly pedigree: readonly PedigreeEntry[] | null;
  /** Notes on each line that the brief needs. */
  readonly lines: readonly { readonly line: Line; readonly notes: readonly TraitNote[] }[];
  /** Notes of its classed traits; their values are places in the trait's list of classes. */
  readonly classes: readonly { readonly trait: string; readonly notes: readonly TraitNote[] }[];
  /** What the words speak; metric unless given. */
  readonly units?: Units;
}

export interface ReckonControl {
  readonly isCancelled?: () => boolean;
  /** share: of the whole; null where it is not known. */
  readonly onProgress?: (share: number | null, step: string) => void;
}

/** Estimates all lines of a brief from the notes. Throws FitCancelledError when stopped. */
export function evidenceFromNotes(data: BriefData, control: ReckonControl = {}): BriefEvidence {
  const unknown = new Map<string, string>();
  const lines: JointLine[] = [];
  const musts = keysOfMusts(data);
  const gammas = new Map<string, number>();
  for (const [done, { line, notes }] of data.lines.entries()) {
    // What is said of a line without notes stands with its limit.
    if (notes.length === 0) continue;
    const trait = data.traits.find(({ code }) => code === line.trait)!;
    control.onProgress?.(shareOfSingle * (done / data.lines.length), `fitting the model of ${trait.name}`);
    const ofColour = line.axis === null ? undefined : gammas.get(line.trait);
    const evaluation = evaluate(notes, data.pedigree, {
      ...fitControl(control),
      // Coordinates of colours are taken as noted, and the first one tells γ for the other two.
      ...(line.axis === null ? { trait: { ...trait, unit: trait.unit ?? null } } : {}),
      ...(ofColour === undefined ? {} : { gamma: ofColour }),
    });
    const gamma = evaluation.fitted === null ? null : (evaluation.kin?.gamma ?? null);
    if (gamma !== null) gammas.set(line.trait, gamma);
    if (evaluation.fitted === null)
      unknown.set(lineKey(line), `${trait.name}: ${evaluation.chosen.impossible}`);
    else
      lines.push({
        key: lineKey(line),
        name: nameOf(line, trait),
        evaluation,
        joint: musts.has(lineKey(line)),
      });
  }
  return {
    ...(data.units ? { units: data.units } : {}),
    traits: data.traits,
    genets: data.genets,
    joint: jointValues(
      lines,
      data.pedigree,
      data.genets.map(({ id }) => id),
      {
        ...fitControl(control),
        onProgress: (share, step) =>
          control.onProgress?.(shareOfSingle + (shareOfJoint - shareOfSingle) * share, step),
      },
    ),
    unknown,
    notes: new Map(
      [
        ...data.lines.map(({ line, notes }) => [line.trait, notes] as const),
        ...data.classes.map(({ trait, notes }) => [trait, notes] as const),
      ].map(([trait, notes]) => [trait, countedByGenet(notes)]),
    ),
    reach: new Map(
      data.lines.flatMap(({ line, notes }) => (notes.length > 0 ? [[lineKey(line), reachOf(notes)]] : [])),
    ),
    classes: new Map(
      data.classes.map(({ trait, notes }) => [trait, classEvidence(trait, notes, data.traits)]),
    ),
  };
}

/** Parts of the whole work that are done when each line is fitted, and when all are fitted together. */
const shareOfSingle = 0.3;
const shareOfJoint = 0.9;

/** Only musts have to be met together; of wishes each chance alone is asked. */
const keysOfMusts = ({ brief, traits }: BriefData): ReadonlySet<string> =>
  new Set(
    linesOf(brief.limits.filter(({ must }) => must).map((limit) => requirementOf(limit, traits))).map(
      lineKey,
    ),
  );

const axesInWords = { l: 'lightness (L)', a: 'red to green (a)', b: 'yellow to blue (b)' } as const;

const nameOf = ({ axis }: Line, { name }: BriefTrait): string =>
  axis === null ? name : `${name}, ${axesInWords[axis]}`;

const fitControl = ({ isCancelled }: ReckonControl): FitControl => (isCancelled ? { isCancelled } : {});

function reachOf(notes: readonly TraitNote[]): NotedReach {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { value } of notes) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return { low, high, notes: notes.length };
}

function countedByGenet(notes: readonly TraitNote[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { genet } of notes) counts.set(genet, (counts.get(genet) ?? 0) + 1);
  return counts;
}

function classEvidence(
  trait: string,
  notes: readonly TraitNote[],
  traits: readonly BriefTrait[],
): ClassEvidence {
  const classes = traits.find(({ code }) => code === trait)?.classes ?? [];
  const counts = new Map<string, Map<string, number>>();
  for (const { genet, value } of notes) {
    const name = classes[value];
    if (name === undefined) continue;
    const own = counts.get(genet) ?? new Map<string, number>();
    counts.set(genet, own.set(name, (own.get(name) ?? 0) + 1));
  }
  return { trait, classes, counts };
}

/** Holds every living genet against a brief, from the notes on. The same records give the same result, bit for bit. */
export function matchFromNotes(data: BriefData, control: ReckonControl = {}): BriefMatch {
  const evidence = evidenceFromNotes(data, control);
  return matchBrief(data.brief, evidence, seededRandom(data.brief.code), {
    ...fitControl(control),
    onProgress: (share) =>
      control.onProgress?.(shareOfJoint + (1 - shareOfJoint) * share, 'holding genets against the brief'),
  });
}
