import { dayOf } from '../calendar.ts';
import { seedlingGenome } from '../genetics/meiosis.ts';
import { hybridTaxon } from '../scenario/origins.ts';
import type { Programme } from './programme.ts';
import { growing } from './things.ts';
import { guess } from './winter.ts';

/** Volunteers that were seen for what they are, and potted up: both parents are guesses. */
export function findVolunteers(programme: Programme, year: number): void {
  const { startYear, times, today } = programme.scale;
  if (year - startYear < 2 || dayOf(year, 5, 28) > today) return;
  const random = programme.random.fork(`volunteers of ${year}`);
  for (let k = Math.max(1, Math.round(1.2 * Math.sqrt(times))); k > 0; k--) {
    const around = random.pick(programme.plan.beds.filter(({ madeIn }) => madeIn < year)).plants;
    const [seed, pollen, other, third] = [0, 1, 2, 3].map(() => random.pick(around));
    const label = programme.addGenet(
      seedlingGenome(
        random,
        programme.bank.genome(growing(seed!, year - 1).number),
        programme.bank.genome(growing(pollen!, year - 1).number),
      ),
      {
        code: programme.code('V', year),
        taxon: hybridTaxon,
        seedParents: guess(seed!, other!),
        pollenParents: [
          ...guess(third!, other!)
            .slice(0, 1)
            .map(({ genet }) => ({ genet, chance: 0.3 })),
          { genet: 'self', chance: 0.15 },
        ],
        trueSeed: growing(seed!, year - 1),
        truePollen: growing(pollen!, year - 1),
        origin: 'volunteer',
        raisedIn: year,
        remark: `came up by itself in ${around[0]!.spot.bed.code}`,
      },
    );
    programme.plant(programme.bedWithRoom('stock', year), {
      label,
      planted: dayOf(year, 5, 20) + random.integer(8),
      ageAtPlanting: 0,
      raisedAs: 'seedling',
      role: 'seedling',
      size: 'lifted',
      keptFrom: year + 1,
    });
  }
}
