import { spikesByAge } from '../growth/age.ts';
import type { PlantYear } from '../growth/plant-year.ts';

/** How closely a plant is watched in a year. */
export type Watch = 'closely' | 'as a seedling' | 'at first flower' | 'not';

/** Chance that something is noted, for a plant of middling looks. */
export interface Chances {
  readonly stage: number;
  readonly notYet: number;
  readonly colour: number;
  readonly size: number;
  readonly score: number;
  readonly seldom: number;
}
export const chances: Record<Exclude<Watch, 'not'>, Chances> = {
  closely: { stage: 0.88, notYet: 0.65, colour: 0.7, size: 0.88, score: 0.8, seldom: 0.35 },
  'as a seedling': { stage: 0.5, notYet: 0.35, colour: 0.5, size: 0.55, score: 0.4, seldom: 0.08 },
  'at first flower': { stage: 0.4, notYet: 0.22, colour: 0.42, size: 0.2, score: 0.06, seldom: 0.01 },
};

export function watchOf({ plant, year, season }: PlantYear): Watch {
  if (season < 1) return 'not';
  if (plant.keptFrom !== null && plant.keptFrom <= year) return 'closely';
  if (plant.role === 'stock') return season <= 6 ? 'closely' : 'as a seedling';
  if (plant.role !== 'seedling') return 'closely';
  return season === 1 ? 'at first flower' : 'as a seedling';
}

/**
 * How the breeders like what they see of a plant this year, in rough standard deviations: long spikes, many for its
 * age, upright and clean. From values as they are at a glance, or as they were noted.
 */
export function liking(values: Readonly<Record<string, number | undefined>>, season: number): number {
  const part = (value: number | undefined, middle: number, sd: number, weight: number): number =>
    value === undefined ? 0 : weight * Math.max(-2.5, Math.min(2.5, (value - middle) / sd));
  const spikes = values['spike-count'];
  const grown = Math.max(0.3, spikesByAge(season));
  return (
    part(values['spike-length'], 26, 5, 0.55) +
    part(spikes === undefined ? undefined : spikes / grown, 8.5, 4, 0.5) +
    part(values['florets-per-spike'], 60, 14, 0.25) +
    part(values.lodging, 4, 1.3, -0.4) +
    part(values['leaf-spot'], 4, 1.3, -0.35)
  );
}

/** A chance, made larger for plants that catch the eye and smaller for poor ones: the log-odds move with the liking. */
export const leaning = (chance: number, glance: number): number =>
  1 / (1 + Math.exp(-(Math.log(chance / (1 - chance)) + 0.75 * glance)));
