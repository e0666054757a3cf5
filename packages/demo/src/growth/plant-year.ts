import type { Random } from '@keelrow/quant';
import { type Day, dateText, dayOf } from '../calendar.ts';
import type { GeneBank } from '../genetics/gene-bank.ts';
import { type Genet, growing, type Plant, type Spot, spotOn } from '../programme/things.ts';
import { dayReached, type YearOfHeat } from '../weather/heat.ts';
import { bareStemByAge, spikesByAge } from './age.ts';
import { growthAt } from './beds.ts';
import { heightAt, lodgingUnder, sizeUnder, spikeLengthAt } from './expected.ts';
import type { Season } from './seasons.ts';

export type Stage = 'emergence' | 'first-flower' | 'full-flower' | 'end-of-flower' | 'ripe-pods';

/** What one plant is like in one year, before anybody looks. */
export interface PlantYear {
  readonly plant: Plant;
  readonly year: number;
  readonly genet: Genet;
  readonly spot: Spot;
  /** Seasons since it came up or was stuck. */
  readonly season: number;
  readonly flowers: boolean;
  /** The day of each stage; null where it was not reached. */
  readonly stages: Readonly<Record<Stage, Day | null>>;
  readonly values: Readonly<Record<PlantValue, number>>;
}
export type PlantValue =
  | 'spike-count'
  | 'spike-length'
  | 'florets-per-spike'
  | 'foliage-height'
  | 'height'
  | 'width'
  | 'bare-stem'
  | 'spike-angle'
  | 'side-spikes'
  | 'lodging'
  | 'leaf-spot'
  | 'mildew'
  | 'frost-hurt'
  | 'glaucous'
  | 'crown-buds';

/** Warmth that a genet needs for each stage, in degree-days from 1 January (weather/heat.ts). */
export function needsOf(bank: GeneBank, genet: number): Record<Stage, number> {
  const first = bank.total(genet, 'first-flower-heat');
  const bloom = Math.max(120, bank.total(genet, 'bloom-heat'));
  const end = first + bloom;
  return {
    emergence: Math.max(20, bank.total(genet, 'emergence-heat')),
    'first-flower': first,
    'full-flower': first + 0.3 * bloom,
    'end-of-flower': end,
    'ripe-pods': end + bank.total(genet, 'ripening-heat'),
  };
}

/** Grows plants: the genet's values, the year, the bed, the plant's age, its own lasting luck and this year's. */
export class Grower {
  private readonly random: Random;
  private readonly bank: GeneBank;
  private readonly seasons: ReadonlyMap<number, Season>;

  constructor(random: Random, bank: GeneBank, seasons: ReadonlyMap<number, Season>) {
    this.random = random.fork('growth');
    this.bank = bank;
    this.seasons = seasons;
  }

  grow(plant: Plant, year: number): PlantYear {
    const lasting = this.random.fork(`plant ${plant.number}`);
    const now = this.random.fork(`plant ${plant.number} in ${year}`);
    const genet = growing(plant, year);
    // A genet answers to a year in its own way, the same for all of its plants.
    const together = this.random.fork(`genet ${genet.number} in ${year}`);
    const weather = this.seasons.get(year)!;
    const spot = spotOn(plant, dayOf(year, 6, 1));
    const place = growthAt(spot);
    const { size: atSpot, damp } = place;
    const season = seasonOf(plant, year);
    const vigour = lasting.normal(0, 0.07) + now.normal(0, 0.035) + together.normal(0, 0.025);
    const conditions = { season, weather, place };
    const size = sizeUnder(conditions) * Math.exp(vigour);
    const total = (name: Parameters<GeneBank['total']>[1]) => this.bank.total(genet.number, name);
    const near = (sd: number) => Math.exp(now.normal(0, sd));
    const expected =
      Math.max(0.4, total('spike-count')) *
      spikesByAge(season) *
      weather.spikes *
      atSpot ** 1.5 *
      Math.exp(1.6 * lasting.normal(0, 0.08) + vigour + together.normal(0, 0.07));
    // Counts are skewed: a gamma mean, then whole spikes.
    const spikes = season < 1 ? 0 : Math.round(now.gamma(14, expected / 14) + now.uniform() - 0.5);
    const score = (middle: number, sd: number) => middle + now.normal(0, sd);
    const frost = weather.lateFrost;
    const stages = this.stages(weather.heat[spot.bed.site.code], genet, spot, season, now, spikes > 0, year);
    return {
      plant,
      year,
      genet,
      spot,
      season,
      flowers: spikes > 0,
      stages,
      values: {
        'spike-count': spikes,
        'spike-length': spikeLengthAt(total('spike-length'), size) * near(0.05),
        'florets-per-spike': total('florets-per-spike') * (0.45 + 0.55 * size) * near(0.07),
        'foliage-height': total('foliage-height') * size * near(0.04),
        height: heightAt(total('height'), size) * near(0.035),
        width: total('width') * size ** 1.2 * near(0.06),
        'bare-stem': Math.max(0, total('bare-stem') * bareStemByAge(season) + now.normal(0, 2)),
        'spike-angle': Math.max(0, total('spike-angle') + 4 * weather.lodging + now.normal(0, 3.5)),
        'side-spikes': Math.max(0, total('side-spikes') * spikesByAge(season) * near(0.25)),
        lodging: score(lodgingUnder(total('lodging'), conditions), 0.65),
        'leaf-spot': score(total('leaf-spot') + weather.leafSpot + 1.8 * damp, 0.8),
        mildew: score(3 + 0.35 * (total('leaf-spot') - 4) - 0.6 * weather.leafSpot - 0.5 * damp, 0.9),
        'frost-hurt': frost
          ? score(1.5 + 1.1 * frost.degrees - 0.03 * (total('emergence-heat') - 92), 0.8)
          : 1,
        glaucous: total('glaucous') + now.normal(0, 0.4),
        'crown-buds': Math.max(0, (3 + 1.6 * total('bud-setting')) * size * near(0.35)),
      },
    };
  }

  private stages(
    heat: YearOfHeat,
    genet: Genet,
    spot: Spot,
    season: number,
    now: Random,
    flowers: boolean,
    year: number,
  ): Record<Stage, Day | null> {
    const needs = needsOf(this.bank, genet.number);
    // Young plants flower a little later and shorter; each plant departs by about a day of its own each year.
    const own = spot.bed.lateness * (season <= 1 ? 1.03 : 1) * Math.exp(now.normal(0, 0.014));
    const bloom = needs['end-of-flower'] - needs['first-flower'];
    const ripening = needs['ripe-pods'] - needs['end-of-flower'];
    const shorter = season <= 1 ? 0.8 : 1;
    const first = needs['first-flower'] * own;
    const end = first + bloom * shorter * Math.exp(now.normal(0, 0.05));
    const reached = (need: number) => dayReached(heat, need);
    const blooms = season >= 1 && flowers;
    return {
      emergence: season < 1 ? null : (reached(needs.emergence * own) ?? dayOf(year, 4, 30)),
      'first-flower': blooms ? reached(first) : null,
      'full-flower': blooms ? reached(first + 0.3 * bloom * shorter) : null,
      'end-of-flower': blooms ? reached(end) : null,
      'ripe-pods': blooms ? reached(end + ripening * own) : null,
    };
  }
}

/** Seasons since a plant came up, or was stuck or divided. */
function seasonOf(plant: Plant, year: number): number {
  const planted = Number(dateText(plant.planted).slice(0, 4));
  return year - planted + Math.round(plant.ageAtPlanting);
}
