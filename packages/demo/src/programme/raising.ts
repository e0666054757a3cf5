import type { Random } from '@keelrow/quant';
import { dayOf } from '../calendar.ts';
import { seedlingGenome } from '../genetics/meiosis.ts';
import { hybridTaxon } from '../scenario/origins.ts';
import { outsiderGenome } from './founders.ts';
import type { Programme } from './programme.ts';
import { seasonPlan } from './recipes.ts';
import { type Cross, type Genet, growing, type SeedLot, type Sowing } from './things.ts';

/** Gathers last summer's seed into lots; a cross that set none has no lot. */
export function gatherSeed(programme: Programme, year: number): void {
  for (const cross of programme.crosses.filter((each) => each.year === year)) {
    const random = programme.random.fork(`seed of ${cross.code}`);
    const bees = cross.pollenPlant === null;
    const fertile = Math.exp(programme.bank.total(growing(cross.seedPlant, year).number, 'fertility'));
    const pods = bees
      ? 10 + random.poisson(14)
      : random.binomial(50 + random.integer(40), Math.min(0.8, 0.42 * fertile));
    const seeds = random.binomial(Math.round(pods * random.gamma(12, 0.5)), 0.8);
    const harvested = cross.madeOn + 58 + random.integer(14);
    if (seeds < 5 || harvested > programme.scale.today) continue;
    programme.lots.push({
      code: programme.code('S', year),
      cross,
      accession: null,
      harvested,
      seeds,
      weight: Math.round(seeds * random.normal(0.024, 0.002) * 100) / 100,
      germination: random.beta(18, 3.5),
    });
  }
}

/** Sows last year's lots under glass in February and plants the seedlings out in May, family by family. */
export function raiseSeedlings(programme: Programme, year: number): void {
  const { startYear, years, seedlings } = programme.scale;
  const lots = programme.lots.filter(({ cross }) => cross?.year === year - 1);
  if (lots.length === 0) return;
  const random = programme.random.fork(`seedlings of ${year}`);
  const shares = Array.from({ length: years - 1 }, (_, season) => seasonPlan(season, years - 1).share);
  const wanted =
    (seedlings * seasonPlan(year - 1 - startYear, years - 1).share) / shares.reduce((a, b) => a + b, 0);
  const weights = lots.map(
    (lot) => random.gamma(3, 1) * (startYear === lot.cross!.year ? 1 : 1.4) * Math.min(1, lot.seeds / 60),
  );
  const sum = weights.reduce((a, b) => a + b, 0);
  let owed = 0;
  lots.forEach((lot, index) => {
    owed += (wanted * weights[index]!) / sum;
    const planted = sowLot(programme, random, lot, Math.round(owed), year);
    owed -= planted;
  });
}

function sowLot(programme: Programme, random: Random, lot: SeedLot, wanted: number, year: number): number {
  if (wanted < 1) return 0;
  // Large programmes raise more of each lot than one spike can bear; there the seed of several spikes is meant.
  const seeds = Math.min(Math.max(lot.seeds, 10), Math.ceil((1.3 * wanted) / (lot.germination * 0.85)) + 4);
  const cameUp = random.binomial(seeds, lot.germination);
  const prickedOut = random.binomial(cameUp, 0.9);
  const planted = Math.min(wanted, prickedOut);
  if (planted === 0) return 0;
  const sowing: Sowing = {
    code: programme.code('W', year),
    lot,
    on: dayOf(year, 2, 3) + random.integer(20),
    seeds,
    cameUp,
    prickedOut,
    planted,
  };
  programme.sowings.push(sowing);
  const on = dayOf(year, 5, 4) + random.integer(14);
  for (let k = 1; k <= planted; k++) {
    const cross = lot.cross!;
    const mother = growing(cross.seedPlant, cross.year);
    const father = drawFather(random, cross);
    const pollen = father ? programme.bank.genome(father.number) : outsiderGenome(programme, random);
    const label = programme.addGenet(seedlingGenome(random, programme.bank.genome(mother.number), pollen), {
      code: `${cross.code}-${k}`,
      taxon: hybridTaxon,
      sowing,
      seedParents: cross.seedParents,
      pollenParents: cross.pollenParents,
      trueSeed: mother,
      truePollen: father,
      origin: 'seedling',
      raisedIn: year,
    });
    programme.plant(programme.bedWithRoom('seedling', year), {
      label,
      planted: on,
      ageAtPlanting: 0,
      raisedAs: 'seedling',
      role: 'seedling',
      size: '9 cm pot',
    });
  }
  return planted;
}

function drawFather(random: Random, { fathers }: Cross): Genet | null {
  let u = random.uniform();
  for (const { genet, weight } of fathers) {
    u -= weight;
    if (u < 0) return genet;
  }
  return fathers.at(-1)!.genet;
}
