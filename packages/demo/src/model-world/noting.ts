import type { TraitNote } from '@keelrow/breeding/evaluation';
import type { Random } from '@keelrow/quant';
import type { EffectDraw } from './joint-effects.ts';
import type { ModelTrait } from './model-garden.ts';
import type { DrawnGenet } from './population.ts';

export interface StandingPlant {
  readonly id: string;
  readonly genet: DrawnGenet;
  readonly bed: number;
  readonly planted: number;
  /** What all its notes share beyond its genet and bed, by trait. */
  readonly luck: readonly number[];
}

export const beds = 8;
/** What people and ages do to a note, in standard deviations of single notes; ages from 1 on. */
const habits = { Ada: 0, Ben: 0.3, Cleo: -0.2 };
const ages = [-0.8, -0.2, 0];
const seasonsSpread = 0.5;
const noted = 0.9;

export interface Noting {
  /** Takes the notes of a season on all standing plants, a tenth of them left out by chance; one list for each trait. */
  take(year: number, plants: readonly StandingPlant[]): TraitNote[][];
  /** Value of a grown plant of the base, seasons, beds and people by their shares of the notes taken. */
  level(trait: number): number;
}

export function noting(random: Random, draw: EffectDraw, traits: readonly ModelTrait[]): Noting {
  const bedEffects = Array.from({ length: beds }, () => draw(random, 'bed'));
  const spread = traits.map(({ variances }) =>
    Math.sqrt(Object.values(variances).reduce((sum, variance) => sum + variance, 0)),
  );
  const people = Object.keys(habits) as (keyof typeof habits)[];
  const shifts = traits.map(() => ({ sum: 0, count: 0 }));
  const take = (year: number, plants: readonly StandingPlant[]): TraitNote[][] => {
    const season = traits.map(() => random.normal(0, seasonsSpread));
    const notes: TraitNote[][] = traits.map(() => []);
    for (const { id, genet, bed, planted, luck } of plants) {
      const residual = draw(random, 'residual');
      const observer = random.pick(people);
      const age = year - planted;
      for (const [t, trait] of traits.entries()) {
        if (random.uniform() > noted) continue;
        const shift = spread[t]! * (season[t]! + habits[observer]) + bedEffects[bed]![t]!;
        shifts[t] = { sum: shifts[t]!.sum + shift, count: shifts[t]!.count + 1 };
        const young = spread[t]! * ages[Math.min(age, ages.length) - 1]!;
        const truth = genet.additive[t]! + genet.own[t]! + luck[t]!;
        notes[t]!.push({
          note: `${id} ${year} ${trait.name}`,
          value: trait.mean + shift + young + truth + residual[t]!,
          genet: genet.id,
          plant: id,
          year,
          site: 'home',
          bed: `B${bed + 1}`,
          age,
          observer,
        });
      }
    }
    return notes;
  };
  return {
    take,
    level: (t) => traits[t]!.mean + shifts[t]!.sum / shifts[t]!.count,
  };
}
