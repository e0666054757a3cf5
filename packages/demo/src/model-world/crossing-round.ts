import type { PedigreeEntry } from '@keelrow/breeding/pedigree';
import type { Random } from '@keelrow/quant';
import type { DrawnGenet, Population } from './population.ts';

/** A genet with what the records say of its parents. */
export interface Raised {
  readonly genet: DrawnGenet;
  readonly entry: PedigreeEntry;
}

/** Of a generation's seedlings, the share from crosses and from selfs; the rest is open-pollinated. */
const share = { crossed: 0.55, selfed: 0.1 };
const families = { crossed: 8, selfed: 2, open: 4 };
/** Chances of the possible pollen parents of open-pollinated seed: itself, three others; the rest is an outsider. */
const selfChance = 0.1;
const otherChances = [0.45, 0.25, 0.1] as const;

const noParents = { seedParents: [], pollenParents: [], cloneOf: null, group: null };

/** A founder of a group. */
export const founder = (genets: Population, group: number): Raised => {
  const genet = genets.founder(group);
  return { genet, entry: { ...noParents, genet: genet.id, group: `provenance ${group + 1}` } };
};

/** A sport: its source's additive effect, and an effect of its own beyond it. */
export const sport = (genets: Population, source: DrawnGenet): Raised => {
  const genet = genets.sport(source);
  return { genet, entry: { ...noParents, genet: genet.id, cloneOf: source.id } };
};

/** Raises a generation from its parents, about as many seedlings as asked for. */
export function crossingRound(
  random: Random,
  genets: Population,
  generation: number,
  parents: readonly DrawnGenet[],
  seedlings: number,
): Raised[] {
  const raised: Raised[] = [];
  const several = (count: number, of: number, raise: () => Raised) => {
    for (let each = 0; each < Math.round((count * seedlings) / of); each++) raised.push(raise());
  };
  for (let family = 0; family < families.crossed; family++) {
    const [seed, pollen] = random.shuffle([...parents]);
    several(share.crossed, families.crossed, () => {
      const genet = genets.seedling(generation, seed!, pollen!);
      return known(genet, seed!, pollen!.id);
    });
  }
  for (let family = 0; family < families.selfed; family++) {
    const seed = random.pick(parents);
    several(share.selfed, families.selfed, () =>
      known(genets.seedling(generation, seed, seed), seed, 'self'),
    );
  }
  for (let family = 0; family < families.open; family++) {
    const [seed, ...others] = random.shuffle([...parents]);
    several(1 - share.crossed - share.selfed, families.open, () =>
      openPollinated(random, genets, generation, seed!, others),
    );
  }
  return raised;
}

const known = (genet: DrawnGenet, seed: DrawnGenet, pollen: string): Raised => ({
  genet,
  entry: {
    ...noParents,
    genet: genet.id,
    seedParents: [{ genet: seed.id, chance: 1 }],
    pollenParents: [{ genet: pollen, chance: 1 }],
  },
});

/** Each seedling has its own pollen parent, drawn by the chances that the records give. */
function openPollinated(
  random: Random,
  genets: Population,
  generation: number,
  seed: DrawnGenet,
  others: readonly DrawnGenet[],
): Raised {
  const possible = otherChances.map((chance, i) => ({ genet: others[i]!, chance }));
  let left = random.uniform() - selfChance;
  let pollen = left < 0 ? seed : null;
  for (const { genet, chance } of possible) {
    if (pollen) break;
    left -= chance;
    if (left < 0) pollen = genet;
  }
  const genet = genets.seedling(generation, seed, pollen ?? genets.outsider());
  return {
    genet,
    entry: {
      ...noParents,
      genet: genet.id,
      seedParents: [{ genet: seed.id, chance: 1 }],
      pollenParents: [
        { genet: 'self', chance: selfChance },
        ...possible.map(({ genet, chance }) => ({ genet: genet.id, chance })),
      ],
    },
  };
}
