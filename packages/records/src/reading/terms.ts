import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';
import { parentEdges } from '../writing/loops.ts';

export interface BindingTerm {
  readonly code: string;
  readonly asks: string;
  readonly fromWhom: string;
  /** The ancestor through which it binds; the genet's own code, accession or taxon where it is its own. */
  readonly through: string;
}

/** The terms that bind a genet: its own, and those of ancestors (genet, accession or taxon) that descend to progeny. */
export async function bindingTerms(db: Kysely<Tables>, genet: string): Promise<BindingTerm[]> {
  const terms = await db
    .selectFrom('terms')
    .selectAll()
    .where('ended_act', 'is', null)
    .orderBy('code')
    .execute();
  if (terms.length === 0) return [];
  const ancestors = await ancestorsOf(db, genet);
  const rows = await db
    .selectFrom('genets')
    .leftJoin('accessions', 'accessions.id', 'genets.accession')
    .select([
      'genets.id',
      'genets.code',
      'genets.accession',
      'genets.taxon',
      'accessions.taxon as accession_taxon',
    ])
    .where('genets.id', 'in', [genet, ...ancestors])
    .execute();
  return terms.flatMap((term) => {
    const bound = rows.find(
      (row) =>
        (row.id === genet || term.descends === 1) &&
        ((term.genet !== null && term.genet === row.id) ||
          (term.accession !== null && term.accession === row.accession) ||
          (term.taxon !== null && (term.taxon === row.taxon || term.taxon === row.accession_taxon))),
    );
    return bound ? [{ code: term.code, asks: term.asks, fromWhom: term.from_whom, through: bound.code }] : [];
  });
}

async function ancestorsOf(db: Kysely<Tables>, genet: string): Promise<string[]> {
  const parentsOf = await parentEdges(db);
  const found = new Set<string>();
  const waiting = [genet];
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    for (const parent of parentsOf.get(here) ?? []) {
      if (found.has(parent)) continue;
      found.add(parent);
      waiting.push(parent);
    }
  }
  return [...found];
}
