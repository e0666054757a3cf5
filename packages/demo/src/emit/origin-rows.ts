import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { dateText, dayOf } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Accession } from '../programme/founders.ts';
import { hybridTaxon, localities, taxonOf } from '../scenario/origins.ts';

export function localityRows(firstYear: number): Row<'localities'>[] {
  return localities.map(({ of: _, ...row }) => ({ ...row, visited_on: `${firstYear - 2}-07-09` }));
}

export function* accessionRows(
  accessions: readonly Accession[],
  random: Random,
): Generator<Row<'accessions'>> {
  for (const accession of accessions) {
    const { code, donor, what, species, genets, collected } = accession;
    if (collected !== null) {
      yield {
        code,
        taxon: species && taxonOf[species],
        locality: accession.locality,
        received_on: dateText(collected + 5 + random.integer(20)),
        form: 'seed',
        origin: 'wild',
        donor,
        collector: donor.includes(', own') ? donor.replace(/,.*$/, '') : null,
        collecting_number: String(100 + random.integer(800)),
        collected_on: dateText(collected),
        mothers: 3 + random.integer(40),
        quantity: `${90 + random.integer(200)} seeds`,
        permit: accession.locality === 'L-09' ? 'county permit 31' : 'landowner’s leave, in writing',
      };
    } else {
      yield {
        code,
        taxon: what === 'cultivars' ? hybridTaxon : 'Lupinus',
        received_on: dateText(dayOf(Number(code.slice(0, 4)), 4, 3) + random.integer(60)),
        form: what === 'cultivars' ? 'plant' : 'seed',
        origin: what === 'cultivars' ? 'nursery' : 'exchange',
        donor,
        quantity: what === 'cultivars' ? `${genets.length} plants` : `${10 + random.integer(40)} seeds`,
      };
    }
  }
}

export function* determinationRows(
  accessions: readonly Accession[],
  random: Random,
): Generator<Row<'determinations'>> {
  for (const { code, species, what } of accessions) {
    const year = Number(code.slice(0, 4));
    const on = dayOf(species ? year + 2 : year, 6, 1) + random.integer(30);
    if (species) {
      yield {
        id: factId(random, on),
        accession: code,
        taxon: taxonOf[species],
        on: dateText(on),
        by: 'Mara Kestrel',
        remark: 'in flower, with the flora',
      };
    } else if (what === 'garden seed') {
      const later = dayOf(year + 1, 6, 8) + random.integer(10);
      yield { id: factId(random, on), accession: code, taxon: taxonOf.blue, on: dateText(on), by: 'donor' };
      yield {
        id: factId(random, later),
        accession: code,
        taxon: hybridTaxon,
        on: dateText(later),
        by: 'Mara Kestrel',
        remark: 'mixed colours: garden stock',
      };
    }
  }
}

export function termRows(accessions: readonly Accession[]): Row<'terms'>[] {
  const numberOf = (fits: (accession: Accession) => boolean) => accessions.find(fits)?.code ?? null;
  const year = Number(accessions[0]!.code.slice(0, 4));
  return [
    {
      code: 'T-1',
      accession: numberOf(({ locality }) => locality === 'L-09'),
      from_whom: 'Alder County, plant protection',
      basis: 'permit',
      asks: 'no plant or seed of the wild stock leaves the garden; progeny may be sold with the permit’s number on the label',
      descends: true,
      from_date: `${year}-06-01`,
      document: 'folder 1, sheet 4',
    },
    {
      code: 'T-2',
      accession: numberOf(({ donor }) => donor.startsWith('Gannet')),
      from_whom: 'Gannet Head warden',
      basis: 'gift',
      asks: 'a fifth of the seed of each increase goes back to the headland',
      descends: true,
      from_date: `${year}-08-01`,
      until_date: `${year + 15}-07-31`,
      document: 'letter in folder 1',
    },
    {
      code: 'T-3',
      accession: numberOf(({ donor }) => donor.startsWith('Marten')),
      from_whom: 'Marten & Daughters',
      basis: 'purchase',
      asks: 'not to be propagated for sale under its name',
      descends: false,
      from_date: `${year + 2}-04-10`,
    },
  ];
}
