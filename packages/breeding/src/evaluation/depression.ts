import type { FittedModel } from '@keelrow/quant';
import type { Kin } from './kin/kin.ts';

/** A slope on inbreeding, where it was found. */
export interface Depression {
  readonly slope: number;
  readonly se: number;
  readonly inbreeding: (genet: string) => number;
}

/** The slope on inbreeding that a fit found. */
export function depressionIn({ result }: FittedModel, kin: Kin | null): Depression | null {
  const slope = result.fixed.find(({ term }) => term === 'inbreeding');
  return kin && slope ? { slope: slope.estimate, se: slope.se, inbreeding: kin.inbreeding } : null;
}
