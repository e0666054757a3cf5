import { dayOf } from '../calendar.ts';
import { locusCount, majorLoci } from '../genetics/loci.ts';
import { majorGenes } from '../genetics/major-genes.ts';
import type { Programme } from './programme.ts';

/** In the sixth spring a shoot of a selection comes up without colour; it is cut off and grown on as a sport. */
export function growSport(programme: Programme, year: number): void {
  if (year - programme.scale.startYear !== 5) return;
  const source = [...programme.selected].find(
    (genet) => programme.bank.pigments(genet.number).anthocyanin > 0.5,
  );
  if (!source) return;
  const genome = programme.bank.genome(source.number);
  const pigment = majorLoci[majorGenes.findIndex(({ name }) => name === 'pigment')]!;
  genome[pigment] = 0;
  genome[locusCount + pigment] = 0;
  const label = programme.addGenet(genome, {
    code: programme.code('SP', year - 1),
    taxon: source.taxon,
    cloneOf: source,
    origin: 'sport',
    raisedIn: year,
    remark: 'white shoot, kept apart by cuttings',
  });
  for (let k = 0; k < 3; k++) {
    programme.plant(programme.bedWithRoom('stock', year), {
      label,
      planted: dayOf(year, 5, 12),
      ageAtPlanting: 1,
      raisedAs: 'cutting',
      role: 'selection',
      size: '1 l pot',
    });
  }
}
