import { analyse, type CholeskyFactor, factorise, solve } from '@keelrow/quant';
import { type Kinship, kinshipOf, type PedigreeEntry } from '../../pedigree/index.ts';
import type { InformationSource } from '../report.ts';
import { sourcesOf } from './kin-entries.ts';

/** What the evaluation asks of the kinship of the genets. */
export interface Kin {
  readonly kinship: Kinship;
  /** Kinship within founder groups (2θ) that was taken; null where founders were taken as unrelated. */
  readonly gamma: number | null;
  inbreeding(genet: string): number;
  /** Relationship of a genet with itself: 1 + inbreeding. */
  own(genet: string): number;
  /** Relationship of any genet with a weighted sum of genets. */
  times(sum: ReadonlyMap<string, number>): (genet: string) => number;
  /** What other genets are to this one. */
  sourcesFor(genet: string): (other: string) => InformationSource;
}

/** gamma: kinship within founder groups; null for unrelated founders. Throws PedigreeError for parentage that cannot be. */
export function kinOf(entries: readonly PedigreeEntry[], gamma: number | null): Kin {
  const kinship = kinshipOf(entries, gamma === null ? undefined : { within: gamma });
  const place = (genet: string) => kinship.indexOf(genet)!;
  const equation = (genet: string) => kinship.equations[place(genet)]!;
  let factor: CholeskyFactor | undefined;
  return {
    kinship,
    gamma,
    inbreeding: (genet) => kinship.inbreeding[place(genet)]!,
    own: (genet) => 1 + kinship.inbreeding[place(genet)]!,
    times(sum) {
      const { inverse } = kinship;
      factor ??= factorise(analyse(inverse), inverse.values);
      const product = new Float64Array(inverse.size);
      for (const [genet, weight] of sum) product[equation(genet)] = product[equation(genet)]! + weight;
      solve(factor, product);
      return (genet) => product[equation(genet)]!;
    },
    sourcesFor: (genet) => sourcesFor(genet, entries, kinship),
  };
}

/** A relationship below this is rounding. */
const leastRelationship = 1e-9;

function sourcesFor(
  genet: string,
  entries: readonly PedigreeEntry[],
  kinship: Kinship,
): (other: string) => InformationSource {
  const byGenet = new Map(entries.map((entry) => [entry.genet, entry]));
  const equation = (id: string) => kinship.equations[kinship.indexOf(id)!]!;
  // A clone's parents are those of the genet that it was first taken from.
  const parentsOf = (id: string): string[] => {
    let entry = byGenet.get(id)!;
    while (entry.cloneOf !== null) entry = byGenet.get(entry.cloneOf)!;
    return sourcesOf(entry);
  };
  const parents = new Set(parentsOf(genet).map(equation));
  const own = equation(genet);
  const related = kinship.coancestriesWith(genet);
  return (other) => {
    if (other === genet) return 'own notes';
    const at = equation(other);
    if (at === own) return 'clones';
    if (parents.has(at)) return 'parents';
    const theirs = parentsOf(other).map(equation);
    if (theirs.includes(own)) return 'offspring';
    if (theirs.some((parent) => parents.has(parent))) return 'sibs';
    return related[kinship.indexOf(other)!]! > leastRelationship ? 'other kin' : 'others';
  };
}
