import type { Random } from '@keelrow/quant';
import { type Day, dayOf } from '../calendar.ts';
import { seedlingGenome } from '../genetics/meiosis.ts';
import { drawProvenance, type Frequencies, type Species, wildGenome } from '../genetics/species.ts';
import { oldCultivarNames, standardNames } from '../scenario/names.ts';
import {
  type Arrival,
  arrivals,
  hybridTaxon,
  localities,
  provenances,
  taxonOf,
} from '../scenario/origins.ts';
import type { Programme } from './programme.ts';
import type { Genet } from './things.ts';

/** An arrival under its accession number. */
export interface Accession extends Arrival {
  readonly code: string;
  readonly species: Species | null;
  readonly provenance: string | null;
  readonly genets: readonly Genet[];
  /** The day on which wild seed was gathered. */
  readonly collected: Day | null;
}

/**
 * Brings in what the programme starts from, in the year before its first season: wild plants of several provenances
 * of the three species, and old garden lupins, which are mixtures of all three many generations back.
 */
export function bringInFounders(programme: Programme): Accession[] {
  const { random, scale } = programme;
  const stream = random.fork('founders');
  const year = scale.startYear - 1;
  const pools = provenances.map(({ name, species }) =>
    drawProvenance(stream.fork(name), programme.species[species]),
  );
  const perWild = Math.max(2, Math.round(4 * Math.sqrt(scale.times)));
  const garden = oldGarden(programme, stream.fork('old garden'));
  let cultivars = 0;
  const collecting = stream.fork('collecting');
  const accessions = arrivals.map((arrival): Accession => {
    const arrived = arrival.what === 'wild' ? year - 2 : year;
    const code = `${arrived}-${String(programme.serial(`accessions of ${arrived}`)).padStart(3, '0')}`;
    const place = localities.find((locality) => locality.code === arrival.locality);
    const provenance = place ? provenances[place.of]! : null;
    const number = arrival.what === 'wild' ? perWild : arrival.what === 'cultivars' ? 3 : 2;
    const genets = Array.from({ length: number }, (_, k) => {
      const own = stream.fork(`${code} ${k}`);
      const genome = place ? wildGenome(own, pools[place.of]!) : garden(own);
      const named =
        arrival.what === 'cultivars' ? [...standardNames, ...oldCultivarNames][cultivars++] : undefined;
      return programme.addGenet(genome, {
        code: `${code}-${k + 1}`,
        name: named ?? null,
        taxon: provenance ? taxonOf[provenance.species] : hybridTaxon,
        accession: code,
        founders: provenance?.species ?? 'garden',
        foundersRecorded: provenance?.name ?? 'old garden lupins',
        origin: arrival.what === 'wild' ? 'wild' : named ? 'cultivar' : 'seedling',
        raisedIn: arrival.what === 'cultivars' ? year - 3 : year - 1,
        standard: named !== undefined && standardNames.some((name) => name === named),
      });
    });
    const collected = arrival.what === 'wild' ? dayOf(arrived, 7, 5) + collecting.integer(40) : null;
    if (collected !== null) keepSeed(programme, collecting, code, collected, arrived);
    return {
      ...arrival,
      code,
      species: provenance?.species ?? null,
      provenance: provenance?.name ?? null,
      genets,
      collected,
    };
  });
  programme.standards.push(...programme.genets.filter(({ standard }) => standard));
  plantFounders(programme, stream, year);
  return accessions;
}

/** What is left of wild seed after the founders were raised from it. */
function keepSeed(
  programme: Programme,
  random: Random,
  accession: string,
  collected: Day,
  year: number,
): void {
  const seeds = 60 + random.integer(190);
  programme.lots.push({
    code: programme.code('S', year),
    cross: null,
    accession,
    harvested: collected,
    seeds,
    weight: Math.round(seeds * random.normal(0.021, 0.003) * 100) / 100,
    germination: random.beta(16, 4),
  });
}

function plantFounders(programme: Programme, random: Random, year: number): void {
  const bed = () => programme.bedWithRoom('stock', year);
  for (const genet of programme.genets.filter(({ standard }) => !standard)) {
    const plants = genet.origin === 'cultivar' ? 2 : 1;
    for (let k = 0; k < plants; k++) {
      programme.plant(bed(), {
        label: genet,
        planted: dayOf(year, 9, 10) + random.integer(25),
        ageAtPlanting: genet.origin === 'cultivar' ? 2 : 1,
        raisedAs: genet.origin === 'cultivar' ? 'bought' : 'seedling',
        role: 'stock',
        size: genet.origin === 'cultivar' ? '2 l pot' : '11 cm pot',
      });
    }
  }
}

/** Old garden lupins: after four generations of free crossing from plants of all three species. */
function oldGarden(programme: Programme, random: Random): (own: Random) => Uint8Array {
  const { blue, yellow, white } = programme.species;
  const kinds: readonly Frequencies[] = [blue, blue, yellow, white];
  let plants = Array.from({ length: 24 }, (_, k) => wildGenome(random, kinds[k % 4]!));
  for (let generation = 0; generation < 4; generation++) {
    plants = Array.from({ length: 24 }, () =>
      seedlingGenome(random, random.pick(plants), random.pick(plants)),
    );
  }
  return (own) => seedlingGenome(own, own.pick(plants), own.pick(plants));
}

/** The genome of a plant from beyond the garden, whose pollen bees may bring. */
export function outsiderGenome(programme: Programme, random: Random): Uint8Array {
  const { blue, yellow, white } = programme.species;
  return wildGenome(
    random,
    blue.map((p, locus) => 0.5 * p + 0.25 * yellow[locus]! + 0.25 * white[locus]!),
  );
}
