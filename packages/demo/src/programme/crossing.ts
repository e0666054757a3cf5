import type { PossibleParent } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import type { Day } from '../calendar.ts';
import { speciesNames } from '../genetics/species.ts';
import { type Flowering, fathersFor, inFlower, overlap } from './bloom-windows.ts';
import { known, type Programme } from './programme.ts';
import { type CrossKind, hopes, seasonPlan } from './recipes.ts';
import { type Cross, type Genet, growing, type Plant, type PollenLot } from './things.ts';

/** Makes the season's crosses, with the plants that flower and as far as they flower together. */
export function makeCrosses(programme: Programme, year: number): void {
  const { startYear, years, times } = programme.scale;
  const random = programme.random.fork(`crosses of ${year}`);
  const flowering = inFlower(programme, year);
  const plan = seasonPlan(year - startYear, years - 1);
  const made: Cross[] = [];
  for (const [kind, number] of Object.entries(plan.crosses) as [CrossKind, number][]) {
    for (let k = Math.max(1, Math.round(number * times ** 0.75)); k > 0; k--) {
      const cross = attempt(programme, random, year, kind, flowering, made);
      if (cross) made.push(cross);
    }
  }
  programme.crosses.push(...made);
}

type Pair = readonly [Flowering, Flowering];

function attempt(
  programme: Programme,
  random: Random,
  year: number,
  kind: CrossKind,
  flowering: readonly Flowering[],
  made: readonly Cross[],
): Cross | null {
  for (let tries = 0; tries < 25; tries++) {
    if (kind === 'open' || kind === 'seen') {
      const mother = leftOpen(random, flowering);
      if (mother && mother.from + 5 <= programme.scale.today) {
        return leftToBees(programme, random, year, kind, mother, flowering);
      }
      continue;
    }
    const pair = choosePair(programme, random, kind, flowering, made);
    const cross = pair && byHand(programme, random, year, kind, pair);
    if (cross) return cross;
  }
  return null;
}

/** One of the flowering plants; those that the breeders liked are likelier. */
function liked(random: Random, flowering: readonly Flowering[]): Flowering | null {
  if (flowering.length === 0) return null;
  const drawn = [random.pick(flowering), random.pick(flowering), random.pick(flowering)];
  return drawn.reduce((best, each) => (each.plant.liking > best.plant.liking ? each : best));
}

/** Seed is saved from plants that are kept for what they are; from others while there are no such plants yet. */
function leftOpen(random: Random, flowering: readonly Flowering[]): Flowering | null {
  const kept = flowering.filter(({ plant }) => plant.keptFrom !== null || plant.role === 'selection');
  return liked(random, kept.length > 4 ? kept : flowering.filter(({ plant }) => plant.role === 'stock'));
}

function choosePair(
  programme: Programme,
  random: Random,
  kind: CrossKind,
  flowering: readonly Flowering[],
  made: readonly Cross[],
): Pair | null {
  const pick = (fits: (genet: Genet, plant: Plant) => boolean): Flowering | null =>
    liked(
      random,
      flowering.filter(({ plant }) => fits(plant.label, plant)),
    );
  const both = (a: Flowering | null, b: Flowering | null): Pair | null =>
    a && b && a.plant.label !== b.plant.label ? [a, b] : null;
  const bred = (genet: Genet) => genet.founders === null;
  switch (kind) {
    case 'between species': {
      const [one, other] = random.shuffle([...speciesNames]);
      return both(
        pick(({ founders }) => founders === one),
        pick(({ founders }) => founders === other),
      );
    }
    case 'cultivar by species':
      return both(
        pick(({ origin }) => origin === 'cultivar'),
        pick(({ origin }) => origin === 'wild'),
      );
    case 'between cultivars':
      return both(
        pick(({ origin }) => origin === 'cultivar'),
        pick(({ founders }) => founders === 'garden'),
      );
    case 'reciprocal': {
      const earlier = random.shuffle(
        made.filter(({ pollenPlant, pollenLot }) => pollenPlant && !pollenLot),
      )[0];
      const find = (plant: Plant) => flowering.find((each) => each.plant === plant) ?? null;
      return earlier ? both(find(earlier.pollenPlant!), find(earlier.seedPlant)) : null;
    }
    case 'self': {
      const one = pick((genet) => bred(genet) || genet.origin === 'cultivar');
      return one && [one, one];
    }
    case 'sibs': {
      const one = pick((genet) => bred(genet) && genet.sowing !== null);
      return (
        one &&
        both(
          one,
          pick(({ sowing }) => sowing === one.plant.label.sowing),
        )
      );
    }
    case 'backcross': {
      const one = pick(bred);
      const parents = [...(one?.plant.label.seedParents ?? []), ...(one?.plant.label.pollenParents ?? [])];
      return both(
        one,
        pick(({ code }) => parents.some(({ genet, chance }) => genet === code && chance === 1)),
      );
    }
    case 'hybrids': {
      const one = pick(bred);
      return both(
        one,
        pick((genet) => bred(genet) && genet.sowing !== one?.plant.label.sowing),
      );
    }
    case 'best by best': {
      const best = (genet: Genet, plant: Plant) => programme.selected.has(genet) || plant.keptFrom !== null;
      return both(pick(best), pick(best));
    }
    default:
      return null;
  }
}

function byHand(
  programme: Programme,
  random: Random,
  year: number,
  kind: CrossKind,
  [seed, pollen]: Pair,
): Cross | null {
  const self = seed.plant === pollen.plant;
  // Fresh pollen where they overlap; stored pollen where the pollen parent flowers first, and now and then to be on the
  // safe side; else not at all.
  const together = overlap(seed, pollen) >= 4;
  const first = pollen.from + 5 < seed.from;
  if (!self && !together && !first) return null;
  const fresh = self || (together && !(first && random.uniform() < 0.4));
  const start = fresh ? Math.max(seed.from, pollen.from) + 2 : seed.from + 4;
  if (start > Math.min(seed.to, programme.scale.today)) return null;
  const seedParent = seed.plant.label;
  const pollenParent = pollen.plant.label;
  return {
    code: programme.code('X', year),
    year,
    sort: self ? 'selfed' : 'by hand',
    seedPlant: seed.plant,
    pollenPlant: pollen.plant,
    seedParents: known(seedParent),
    pollenParents: self ? [{ genet: 'self', chance: 1 }] : known(pollenParent),
    fathers: [{ genet: growing(pollen.plant, year), weight: 1 }],
    madeOn: start,
    pollenLot: fresh ? null : storePollen(programme, year, pollen),
    brief: kind === 'best by best' ? random.pick(['tall-slate', 'short-cream', 'late-yellow']) : null,
    remark: hopes[kind],
    tag: `${random.pick(['red', 'white', 'blue', 'yellow'])} ${1 + random.integer(90)}`,
  };
}

function storePollen(programme: Programme, year: number, { plant, from }: Flowering): PollenLot {
  const collected: Day = from + 5;
  const kept = programme.pollenLots.find((lot) => lot.plant === plant && lot.collected === collected);
  if (kept) return kept;
  const lot = { code: programme.code('P', year), plant, collected };
  programme.pollenLots.push(lot);
  return lot;
}

/** A plant left to the bees. The breeders list who was in flower near by, with chances by eye. */
function leftToBees(
  programme: Programme,
  random: Random,
  year: number,
  kind: 'open' | 'seen',
  mother: Flowering,
  flowering: readonly Flowering[],
): Cross {
  const { near, fathers } = fathersFor(mother, flowering, year);
  return {
    code: programme.code('X', year),
    year,
    sort: kind === 'open' ? 'open-pollinated' : 'observed',
    seedPlant: mother.plant,
    pollenPlant: null,
    seedParents: known(mother.plant.label),
    pollenParents: guessed(random, near, mother.plant.label, kind === 'open' ? 6 : 2),
    fathers,
    madeOn: mother.from + 3,
    pollenLot: null,
    brief: null,
    remark: hopes[kind],
    tag: '',
  };
}

/** Chances as somebody would put them down: the likeliest few by label, in steps of 5%, with a tenth for selfing. */
function guessed(
  random: Random,
  near: readonly { readonly other: Flowering; readonly weight: number }[],
  mother: Genet,
  most: number,
): PossibleParent[] {
  const byLabel = new Map<Genet, number>();
  for (const { other, weight } of near) {
    if (other.plant.label === mother) continue;
    const eye = weight * Math.exp(random.normal(0, 0.35));
    byLabel.set(other.plant.label, (byLabel.get(other.plant.label) ?? 0) + eye);
  }
  const top = [...byLabel].sort((a, b) => b[1] - a[1]).slice(0, most);
  const tooMuch = Math.max(1, top.reduce((total, [, weight]) => total + weight, 0) / 0.85);
  const listed = top
    .map(([{ code }, weight]) => ({ genet: code, chance: Math.floor((20 * weight) / tooMuch + 0.5) / 20 }))
    .filter(({ chance }) => chance > 0);
  return [...listed, { genet: 'self', chance: 0.1 }];
}
