import type { PossibleParent } from '@keelrow/breeding/facts';
import type { PedigreeEntry } from '@keelrow/breeding/pedigree';
import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { readParentage } from './parentage.ts';

/**
 * The pedigree of a programme, by the ids of genets. Parents are as readParentage has them. A genet without
 * parents belongs to the founder group that it names, else to that of its taxon and provenance, else of its taxon.
 */
export async function readPedigree(db: Kysely<Tables>): Promise<readonly PedigreeEntry[]> {
  const parentage = await readParentage(db);
  const genets = await db
    .selectFrom('genets')
    .leftJoin('accessions', 'accessions.id', 'genets.accession')
    .leftJoin('localities', 'localities.id', 'accessions.locality')
    .leftJoin('taxa as own_taxon', 'own_taxon.id', 'genets.taxon')
    .leftJoin('taxa as taxon_received', 'taxon_received.id', 'accessions.taxon')
    .select([
      'genets.id',
      'genets.clone_of',
      'genets.founder_group',
      'localities.provenance',
      'own_taxon.name as taxon',
      'taxon_received.name as taxon_received',
    ])
    .where('genets.ended_act', 'is', null)
    .orderBy('genets.id')
    .execute();
  const parentsOf = (genet: string, side: 'seed' | 'pollen'): PossibleParent[] =>
    parentage.of(genet, side).map(({ parent, chance }) => ({ genet: parent ?? 'self', chance }));
  return genets.map(({ id, clone_of, founder_group, provenance, taxon, taxon_received }) => {
    const seedParents = clone_of ? [] : parentsOf(id, 'seed');
    const pollenParents = clone_of ? [] : parentsOf(id, 'pollen');
    const isFounder = !clone_of && seedParents.length === 0 && pollenParents.length === 0;
    const descent = [taxon ?? taxon_received, provenance].filter((part) => part != null).join(', ');
    return {
      genet: id,
      seedParents,
      pollenParents,
      cloneOf: clone_of,
      group: isFounder ? (founder_group ?? (descent || null)) : null,
    };
  });
}
