import type { Random } from '@keelrow/quant';
import { dateText, dayOf } from '../calendar.ts';
import { isFull } from '../growth/beds.ts';
import { sites } from '../scenario/sites.ts';
import type { Programme, Trial } from './programme.ts';
import { type Batch, type Genet, type Group, growing, type Plant } from './things.ts';

const chance = (logit: number): number => 1 / (1 + Math.exp(-logit));

/**
 * How cuttings fare, in log-odds. Common practice, no source: without a bud below the surface hardly any returns.
 * The figures are invented.
 */
export const cuttingRates = { withBud: 1.2, withoutBud: -4.2, treated: 0.45, yearSd: 0.55, batchSd: 0.25 };

/** Basal cuttings in April: of last autumn's selections, of some earlier ones, and of two standards. */
export function stickCuttings(programme: Programme, year: number): void {
  const random = programme.random.fork(`cuttings of ${year}`);
  const swing = {
    rooting: random.normal(0, cuttingRates.yearSd),
    winter: random.normal(0, cuttingRates.yearSd),
  };
  const spring = dayOf(year, 4, 10);
  const living = programme.living(spring);
  const stocked = new Set(programme.batches.map(({ genet }) => genet));
  const last = [...programme.selected].filter((genet) => !stocked.has(genet));
  const again = random.shuffle([...programme.selected].filter((genet) => stocked.has(genet))).slice(0, 4);
  const standards = programme.standards.slice(0, 2);
  for (const genet of [...last, ...again, ...standards]) {
    const stock = living.filter((plant) => plant.label === genet && plant.spot.bed.sort !== 'evaluation');
    const plant = stock.sort((a, b) => a.planted - b.planted)[0];
    if (!plant) continue;
    const treatments = last.includes(genet) ? [random.pick([null, 'IBA powder'])] : [null, 'IBA powder'];
    for (const treatment of treatments) {
      const stuck = last.includes(genet) ? 20 + random.integer(16) : 20 + random.integer(20);
      programme.batches.push(
        batch(programme, random.fork(`${genet.code} ${treatment}`), plant, year, stuck, treatment, swing),
      );
    }
  }
}

function batch(
  programme: Programme,
  random: Random,
  stockPlant: Plant,
  year: number,
  stuck: number,
  treatment: string | null,
  swing: { rooting: number; winter: number },
): Batch {
  const { bank } = programme;
  const genet = growing(stockPlant, year).number;
  const near = () => random.normal(0, cuttingRates.batchSd);
  const hardy = 0.5 * (bank.total(genet, 'winter') - 2.9);
  const rates = {
    rooting: chance(
      bank.total(genet, 'rooting') + (treatment ? cuttingRates.treated : 0) + swing.rooting + near(),
    ),
    winterWithBud: chance(cuttingRates.withBud + hardy + swing.winter + near()),
    winterWithoutBud: chance(cuttingRates.withoutBud + hardy + swing.winter + near()),
  };
  const rooted = random.binomial(stuck, rates.rooting);
  const potted = random.binomial(rooted, 0.96);
  const withBud = random.binomial(potted, chance(bank.total(genet, 'bud-setting') + near()));
  const group = (number: number, buds: number, winter: number): Group => {
    const intoWinter = random.binomial(number, 0.95);
    const crownBuds = random.binomial(intoWinter, buds);
    return { potted: number, crownBuds, intoWinter, returned: random.binomial(intoWinter, winter) };
  };
  return {
    code: programme.code('C', year),
    genet: stockPlant.label,
    stockPlant,
    on: dayOf(year, 4, 10) + random.integer(12),
    stuck,
    treatment,
    rooted,
    withBud: group(withBud, 0.8, rates.winterWithBud),
    withoutBud: group(potted - withBud, 0.03, rates.winterWithoutBud),
    rates,
  };
}

export const returned = ({ withBud, withoutBud }: Batch): number => withBud.returned + withoutBud.returned;

/** Plants out what returned of last year's batches, each selection over several beds of both sites. */
export function plantOutClones(programme: Programme, year: number): void {
  const random = programme.random.fork(`clones of ${year}`);
  const byGenet = new Map<Genet, Batch[]>();
  for (const each of programme.batches) {
    if (
      dayOf(year - 1, 1, 1) <= each.on &&
      each.on < dayOf(year, 1, 1) &&
      programme.selected.has(each.genet)
    ) {
      byGenet.set(each.genet, [...(byGenet.get(each.genet) ?? []), each]);
    }
  }
  const stands = new Set(
    programme.plants.filter(({ role }) => role === 'selection').map(({ label }) => label),
  );
  const fresh = [...byGenet].filter(
    ([genet, batches]) => !stands.has(genet) && batches.some((each) => returned(each) > 0),
  );
  if (fresh.length === 0) return;
  const trial = year - programme.scale.startYear === 5;
  if (trial) programme.trials.push(startTrial(programme, random, year));
  for (let replicate = 1; replicate <= 6; replicate++) {
    const site = replicate % 3 === 0 ? sites[1] : sites[0];
    const entries = fresh.filter(([, batches]) => sum(batches, returned) >= replicate);
    const inTrial = trial && replicate <= 3;
    const standards = inTrial ? programme.standards.map((genet) => [genet, []] as const) : [];
    for (const [genet, batches] of random.shuffle([
      ...entries.slice(0, inTrial ? 20 : undefined),
      ...standards,
    ])) {
      const bed = inTrial ? programme.trials[0]!.bed : programme.bedWithRoom('evaluation', year, site);
      const source = batches[0];
      const others = fresh.map(([other]) => other).filter((other) => other !== genet);
      const plant = programme.plant(bed, {
        label: genet,
        truly: source ? cloneTaken(random, source, others) : genet,
        planted: dayOf(year, 5, 8) + random.integer(8),
        ageAtPlanting: 1,
        raisedAs: source ? 'cutting' : 'division',
        role: source ? 'selection' : 'standard',
        size: '1 l pot',
        batch: source ?? null,
      });
      if (plant.truly !== genet) {
        programme.wrongLabels.push({
          plant,
          truly: plant.truly,
          from: year,
          how: 'another clone',
          foundOut: null,
        });
      }
      if (inTrial) programme.trials[0]!.entries.push({ plant, replicate });
    }
  }
}

const sum = <T>(things: readonly T[], of: (thing: T) => number): number =>
  things.reduce((total, each) => total + of(each), 0);

/** The sixth spring's clones stand in a bed of their own, in three complete blocks with all standards in each. */
function startTrial(programme: Programme, random: Random, year: number): Trial {
  return {
    code: programme.code('TR', year),
    bed: programme.newBed('evaluation', year),
    planted: dayOf(year, 5, 8),
    seed: 1000 + random.integer(9000),
    entries: [],
  };
}

/** What is really in the pot: the stock plant's genet, or now and then another selection's. */
function cloneTaken(random: Random, taken: Batch, others: readonly Genet[]): Genet {
  if (random.uniform() < 0.025 && others.length > 0) return random.pick(others);
  return growing(taken.stockPlant, Number(dateText(taken.on).slice(0, 4)));
}

/** A plant of a standard's own batch goes to the stock beds, so that standards stand there in several ages. */
export function renewStandards(programme: Programme, year: number): void {
  const taken = programme.batches.find(
    (each) =>
      programme.standards.includes(each.genet) &&
      each.on < dayOf(year, 1, 1) &&
      each.on >= dayOf(year - 1, 1, 1) &&
      returned(each) > 0,
  );
  const bed = programme.plan.beds.findLast(({ sort }) => sort === 'stock');
  if (!taken || !bed || isFull(bed)) return;
  programme.plant(bed, {
    label: taken.genet,
    planted: dayOf(year, 5, 10),
    ageAtPlanting: 1,
    raisedAs: 'cutting',
    role: 'standard',
    size: '1 l pot',
    batch: taken,
  });
}
