import type { Random } from '@keelrow/quant';
import type { EffectDraw } from './joint-effects.ts';
import { relationshipTable } from './tabular-relationship.ts';

/** A genet of the model world; effects by trait, as differences from the base. */
export interface DrawnGenet {
  readonly id: string;
  readonly generation: number;
  readonly additive: readonly number[];
  readonly own: readonly number[];
  /** Its row in the table of relationships; a sport has its source's. */
  readonly row: number;
}

/** Genets with their true values, added parents first. */
export interface Population {
  founder(group: number): DrawnGenet;
  /** Somebody's plant beyond the garden, unrelated to any in it. */
  outsider(): DrawnGenet;
  seedling(generation: number, seedParent: DrawnGenet, pollenParent: DrawnGenet): DrawnGenet;
  sport(source: DrawnGenet): DrawnGenet;
}

/**
 * Infinitesimal inheritance: a seedling's additive value is the mean of its parents' and a normal Mendelian part, whose
 * variance follows from the parents' inbreeding (R. A. Fisher 1918; M. G. Bulmer 1971, American Naturalist 105:201-211).
 */
export function population(random: Random, draw: EffectDraw, groups: number, gamma: number): Population {
  const table = relationshipTable(gamma);
  const groupMeans = Array.from({ length: groups }, () => draw(random, 'additive', gamma));
  let genets = 0;
  const add = (row: number, generation: number, mean: readonly number[]): DrawnGenet => {
    const mendelian = draw(random, 'additive', table.mendelian(row));
    const additive = mean.map((value, trait) => value + mendelian[trait]!);
    return { id: `g${++genets}`, generation, additive, own: draw(random, 'genet'), row };
  };
  return {
    founder: (group) => add(table.addFounder(group), 0, groupMeans[group]!),
    outsider: () => {
      const base = groupMeans[0]!.map(() => 0);
      return add(table.addFounder(null), 0, base);
    },
    seedling(generation, seedParent, pollenParent) {
      const mean = seedParent.additive.map((value, trait) => (value + pollenParent.additive[trait]!) / 2);
      return add(table.addSeedling(seedParent.row, pollenParent.row), generation, mean);
    },
    sport: ({ row, generation, additive }) => ({
      id: `g${++genets}`,
      generation,
      additive,
      own: draw(random, 'genet'),
      row,
    }),
  };
}
