import { boxProbability, type Random } from '@keelrow/quant';
import type { JointValue, NormalValue } from '../evaluation/index.ts';
import { chanceOfClasses } from './class-chances.ts';
import { distancesFrom, drawCount, jointDraws, standardDraws } from './colour-draws.ts';
import type { BriefEvidence } from './evidence.ts';
import type { HeldLimit, PlacedInterval } from './held-limits.ts';

/** Chances of one genet. */
export interface GenetChances {
  readonly value: JointValue;
  /** Chance of each limit alone; null where it cannot be told. */
  readonly alone: readonly (number | null)[];
  /** Colour differences of the draws, for limits on colours. */
  readonly distances: readonly (Float64Array | null)[];
  /** Chance of all musts that can be told; null where there is none. */
  readonly all: number | null;
  /** Bound on the error of that chance from drawing, which holds about 99 times in 100. */
  readonly error: number;
}

/** Half the width of a range that holds 99 of 100, in standard errors: Φ⁻¹(0.995). */
const halfOf99 = 2.576;
const boxTolerance = 1e-3;

/**
 * Chances that a genet's true values meet the limits: the mean of the chances at each of the covariances that may be the true
 * ones. Given one of them the true values are normal with the joint estimates' mean and covariance. Without colours the musts are a box, whose chance is exact in one dimension and by the method of
 * Genz 1992 in several (quant's boxProbability); with colours it is the share of joint draws that meet all. Classes are
 * taken as independent of the rest.
 */
export function chancesOf(
  limits: readonly HeldLimit[],
  { joint, classes }: BriefEvidence,
  random: Random,
): (genet: string) => GenetChances {
  const dimensions = joint.keys.length;
  const withColours = limits.some(({ axes }) => axes !== null);
  const standard = withColours ? standardDraws(dimensions, random.fork('colours')) : new Float64Array(0);
  const draws = new Float64Array(standard.length);
  const musts = limits.map(({ limit, unknown }) => limit.must && unknown === null);
  const colourMusts = limits.some(({ axes }, i) => axes !== null && musts[i]);
  const mustIntervals = limits.flatMap(({ intervals }, i) => (musts[i] ? intervals : []));
  return (genet) => {
    const value = joint.of(genet);
    if (withColours) jointDraws(value, standard, draws);
    const distances = limits.map(({ axes, limit }) =>
      axes ? distancesFrom(limit.colour!, draws, dimensions, axes) : null,
    );
    const alone = limits.map(({ unknown, intervals, prior, limit }, i) => {
      if (unknown !== null) return null;
      if (prior) return chanceOfClasses(prior, classes.get(limit.trait)?.counts.get(genet), limit.classes!);
      const own = distances[i];
      return own ? shareWithin(own, limit.colourWithin!) : boxOf(value, intervals, random).chance;
    });
    if (!musts.includes(true)) return { value, alone, distances, all: null, error: 0 };
    const onLines = colourMusts
      ? drawnChance(limits, musts, distances, mustIntervals, draws, dimensions)
      : boxOf(value, mustIntervals, random);
    const ofClasses = limits.reduce((all, { prior }, i) => (prior && musts[i] ? all * alone[i]! : all), 1);
    return { value, alone, distances, all: onLines.chance * ofClasses, error: onLines.error * ofClasses };
  };
}

const shareWithin = (distances: Float64Array, within: number): number =>
  distances.reduce((met, distance) => met + (distance <= within ? 1 : 0), 0) / drawCount;

/** The mean over the covariances that may be true, and of the bounds of errors. */
function boxOf({ each }: JointValue, intervals: readonly PlacedInterval[], random: Random) {
  let [chance, error] = [0, 0];
  for (const value of each) {
    const box = boxAt(value, intervals, random);
    chance += box.chance / each.length;
    error += box.error / each.length;
  }
  return { chance, error };
}

function boxAt(value: NormalValue, intervals: readonly PlacedInterval[], random: Random) {
  const places = [...new Set(intervals.map(({ at }) => at))];
  const m = value.mean.length;
  return boxProbability(
    places.map((at) => value.mean[at]!),
    places.flatMap((row) => places.map((column) => value.covariance[row * m + column]!)),
    places.map((at) => Math.max(...intervals.filter((one) => one.at === at).map(({ low }) => low))),
    places.map((at) => Math.min(...intervals.filter((one) => one.at === at).map(({ high }) => high))),
    // The same points for every genet, so that like genets get like chances.
    { random: random.fork('box'), tolerance: boxTolerance },
  );
}

function drawnChance(
  limits: readonly HeldLimit[],
  musts: readonly boolean[],
  distances: readonly (Float64Array | null)[],
  intervals: readonly PlacedInterval[],
  draws: Float64Array,
  dimensions: number,
): { chance: number; error: number } {
  const colours = limits.flatMap(({ limit }, i) => {
    const own = distances[i];
    return own && musts[i] ? [{ own, within: limit.colourWithin! }] : [];
  });
  let met = 0;
  for (let draw = 0; draw < drawCount; draw++) {
    const start = draw * dimensions;
    const all =
      colours.every(({ own, within }) => own[draw]! <= within) &&
      intervals.every(({ at, low, high }) => draws[start + at]! >= low && draws[start + at]! <= high);
    if (all) met += 1;
  }
  const chance = met / drawCount;
  // A share of none or all of the draws still leaves doubt: as if one more draw had gone either way (Agresti & Coull 1998).
  const eased = (met + 1) / (drawCount + 2);
  return { chance, error: halfOf99 * Math.sqrt((eased * (1 - eased)) / drawCount) };
}
