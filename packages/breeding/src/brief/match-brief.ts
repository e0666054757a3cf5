import { FitCancelledError, type Random } from '@keelrow/quant';
import type { Brief } from './brief.ts';
import { checkBrief } from './check-brief.ts';
import type { BriefEvidence, BriefGenet, MatchControl } from './evidence.ts';
import { chancesOf, type GenetChances } from './genet-chances.ts';
import { heedOf } from './heed.ts';
import { type HeldLimit, heldLimits } from './held-limits.ts';
import { likelyOf } from './limit-match.ts';
import type { BriefMatch, LimitMatch, PlantMatch } from './match.ts';

/** A must this likely to be met does not stand in the way. */
const likelyMet = 0.9;

/**
 * Holds every genet against a brief: the chance that its true values meet all musts at once, and what stands in the way.
 * Limits that cannot be told are left out of that chance and named in `heed`. The same result for the same random stream.
 *
 * @throws BriefError for a brief that says nothing or contradicts itself; FitCancelledError when stopped
 */
export function matchBrief(
  brief: Brief,
  evidence: BriefEvidence,
  random: Random,
  control: MatchControl = {},
): BriefMatch {
  checkBrief(brief, evidence.traits, evidence.units);
  const limits = heldLimits(brief, evidence);
  const chances = chancesOf(limits, evidence, random);
  const plants = evidence.genets.map((genet, done) => {
    if (control.isCancelled?.()) throw new FitCancelledError();
    control.onProgress?.(done / evidence.genets.length);
    return plantMatch(genet, limits, chances(genet.id), evidence);
  });
  const named = new Set(brief.limits.map(({ trait }) => trait));
  return {
    brief: { id: brief.id, code: brief.code, name: brief.name },
    limits: limits.map(({ limit, trait, words, unknown, beyond }) => ({
      trait: trait.code,
      traitName: trait.name,
      must: limit.must,
      weight: limit.must ? null : weightOf(limit),
      words,
      unknown,
      beyond,
    })),
    traits: evidence.traits
      .filter(({ code }) => named.has(code))
      .map(({ code, name, sort, unit, notes }) => ({
        code,
        name,
        sort,
        unit: unit ?? null,
        notes,
        genets: evidence.notes.get(code)?.size ?? 0,
      })),
    plants: plants.sort(
      (a, b) =>
        (b.chance ?? 0) - (a.chance ?? 0) || (b.wishes ?? 0) - (a.wishes ?? 0) || (a.code < b.code ? -1 : 1),
    ),
    heed: heedOf(limits, evidence),
  };
}

/** A wish without a weight counts once. */
const weightOf = ({ weight }: HeldLimit['limit']): number => weight ?? 1;

function plantMatch(
  genet: BriefGenet,
  limits: readonly HeldLimit[],
  chances: GenetChances,
  { joint, notes, classes }: BriefEvidence,
): PlantMatch {
  const notesOf = (trait: string) => notes.get(trait)?.get(genet.id) ?? 0;
  const worst = leastLikelyMust(limits, chances.alone);
  const likely = limits.map((held, i) =>
    likelyOf(
      held,
      joint,
      chances.value,
      chances.distances[i]!,
      classes.get(held.trait.code)?.counts.get(genet.id),
    ),
  );
  const traits = new Set(limits.map(({ trait }) => trait.code));
  return {
    ...genet,
    chance: chances.all,
    chanceError: chances.error,
    wishes: wishesMet(limits, chances.alone),
    limits: limits.map(({ limit, trait }, i): LimitMatch => {
      const { words, estimate, low, high, colour, class: name } = likely[i]!;
      return {
        trait: trait.code,
        must: limit.must,
        words,
        chance: chances.alone[i]!,
        estimate,
        low,
        high,
        colour,
        class: name,
        notes: notesOf(trait.code),
        inTheWay: i === worst,
      };
    }),
    inTheWay:
      worst === null ? '' : inTheWay(limits[worst]!, likely[worst]!, notesOf(limits[worst]!.trait.code)),
    notes: [...traits].reduce((sum, trait) => sum + notesOf(trait), 0),
  };
}

function leastLikelyMust(limits: readonly HeldLimit[], alone: readonly (number | null)[]): number | null {
  let worst: number | null = null;
  for (const [i, { limit }] of limits.entries()) {
    const chance = alone[i]!;
    if (!limit.must || chance === null || chance >= likelyMet) continue;
    if (worst === null || chance < alone[worst]!) worst = i;
  }
  return worst;
}

function inTheWay(
  { subject }: HeldLimit,
  { words, amiss }: ReturnType<typeof likelyOf>,
  notes: number,
): string {
  if (notes === 0) return `${subject} not noted: ${words}; a note of it would tell more`;
  return `${subject} ${amiss ?? 'uncertain'}: ${words}`;
}

/** Expected share of the wishes' weight that is met; null without wishes that can be told. */
function wishesMet(limits: readonly HeldLimit[], alone: readonly (number | null)[]): number | null {
  let [met, all] = [0, 0];
  for (const [i, { limit }] of limits.entries()) {
    const chance = alone[i]!;
    if (limit.must || chance === null) continue;
    met += weightOf(limit) * chance;
    all += weightOf(limit);
  }
  return all > 0 ? met / all : null;
}
