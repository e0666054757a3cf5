import type { AdditiveTerm } from '@keelrow/quant';
import type { Kinship } from './kinship.ts';

/** The additive term of a mixed model whose rows name their genet in the given column. */
export function additiveTerm(kinship: Kinship, column: string, listedIn = 'the pedigree'): AdditiveTerm {
  const { genets, equations, inverse, logDeterminant, inbreeding } = kinship;
  return { column, listedIn, levels: genets, equations, inverse, logDeterminant, inbreeding };
}
