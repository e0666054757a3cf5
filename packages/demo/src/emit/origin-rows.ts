import type { Row } from '@keelrow/breeding/facts';
import type { Random } from '@keelrow/quant';
import { dateText, dayOf } from '../calendar.ts';
import { factId } from '../ids.ts';
import type { Accession } from '../programme/founders.ts';
import { hybridTaxon, localities, taxonOf } from '../scenario/origins.ts';

export function localityRows(): Row<'localities'>[] {
  return localities.map(({ of: _, ...row }) => row);
}

export function* accessionRows(
  accessions: readonly Accession[],
  random: Random,
): Generator<Row<'accessions'>> {
  for (const { code, locality, donor, what, species, genets } of accessions) {
    const year = Number(code.slice(0, 4));
    const collected = dayOf(year - 2, 7, 5) + random.integer(40);
    const wild = what === 'wild';
    yield {
      code,
      taxon: species ? taxonOf[species] : what === 'garden seed' ? 'Lupinus' : hybridTaxon,
      locality,
      received_on: dateText(
        wild ? collected + 5 + random.integer(20) : dayOf(year, 4, 3) + random.integer(60),
      ),
      form: what === 'cultivars' ? 'plant' : 'seed',
      origin: wild ? 'wild' : what === 'cultivars' ? 'nursery' : 'exchange',
      donor,
      collector: wild && donor.includes('own') ? donor.replace(/,.*$/, '') : null,
      collecting_number: wild ? `${donor.slice(0, 1)}${100 + random.integer(800)}` : null,
      collected_on: wild ? dateText(collected) : null,
      mothers: wild ? 3 + random.integer(40) : null,
      quantity: what === 'cultivars' ? `${genets.length} plants` : `${40 + random.integer(200)} seeds`,
      permit:
        locality === 'L-09'
          ? 'permit AC 17-031 of the county'
          : wild
            ? 'landowner’s leave, in writing'
            : null,
    };
  }
}

export function* determinationRows(
  accessions: readonly Accession[],
  random: Random,
): Generator<Row<'determinations'>> {
  for (const { code, species, what } of accessions) {
    const year = Number(code.slice(0, 4));
    const on = dayOf(year, 6, 1) + random.integer(30);
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
      from_date: `${year - 2}-06-01`,
      document: 'folder 1, sheet 4',
    },
    {
      code: 'T-2',
      accession: numberOf(({ donor }) => donor.startsWith('Gannet')),
      from_whom: 'Gannet Head warden',
      basis: 'gift',
      asks: 'a fifth of the seed of each increase goes back to the headland',
      descends: true,
      from_date: `${year - 2}-08-01`,
      until_date: `${year + 13}-07-31`,
      document: 'letter in folder 1',
    },
    {
      code: 'T-3',
      accession: numberOf(({ donor }) => donor.startsWith('Marten')),
      from_whom: 'Marten & Daughters',
      basis: 'purchase',
      asks: 'not to be propagated for sale under its name',
      descends: false,
      from_date: `${year}-04-10`,
    },
  ];
}
