import type { Kysely } from 'kysely';
import { chunksOf } from '../schema/any-table.ts';
import type { Tables } from '../schema/columns.ts';
import { parentEdges } from '../writing/loops.ts';
import { untilNextAct } from './kept-readings.ts';

interface BindingTerm {
  readonly code: string;
  readonly asks: string;
  readonly fromWhom: string;
  /** The genet through which it binds: the genet itself where it is its own term, else the nearest such ancestor. */
  readonly through: string;
}

/**
 * The terms that bind a genet: its own, and those of ancestors (genet, accession or taxon) that descend to progeny.
 * What was raised from a seed lot is bound by the accession and through the seed parent of the lot as well.
 */
export async function bindingTerms(db: Kysely<Tables>, genet: string): Promise<BindingTerm[]> {
  const terms = await db
    .selectFrom('terms')
    .selectAll()
    .where('ended_act', 'is', null)
    .orderBy('code')
    .execute();
  if (terms.length === 0) return [];
  const nearestFirst = [genet, ...(await ancestorsOf(db, genet))];
  const material = await materialOf(db, nearestFirst);
  return terms.flatMap((term) => {
    const bound = nearestFirst
      .map((id) => material.get(id))
      .find(
        (of) =>
          of !== undefined &&
          (of.id === genet || term.descends === 1) &&
          ((term.genet !== null && term.genet === of.id) ||
            (term.accession !== null && of.accessions.includes(term.accession)) ||
            (term.taxon !== null && of.taxa.includes(term.taxon))),
      );
    return bound ? [{ code: term.code, asks: term.asks, fromWhom: term.from_whom, through: bound.code }] : [];
  });
}

interface Material {
  readonly id: string;
  readonly code: string;
  readonly accessions: readonly (string | null)[];
  readonly taxa: readonly (string | null)[];
}

/** Of which accessions and taxa genets are: by their own word or that of the seed lot that they came from. */
async function materialOf(db: Kysely<Tables>, genets: readonly string[]): Promise<Map<string, Material>> {
  const material = new Map<string, Material>();
  for (const chunk of chunksOf(genets, 5000)) {
    const rows = await db
      .selectFrom('genets')
      .leftJoin('sowings', 'sowings.id', 'genets.sowing')
      .leftJoin('seed_lots as own_lot', 'own_lot.id', 'genets.seed_lot')
      .leftJoin('seed_lots as sown_lot', 'sown_lot.id', 'sowings.seed_lot')
      .leftJoin('accessions', 'accessions.id', 'genets.accession')
      .leftJoin('accessions as of_lot', (join) =>
        join.on((on) =>
          on.or([
            on('of_lot.id', '=', on.ref('own_lot.accession')),
            on('of_lot.id', '=', on.ref('sown_lot.accession')),
          ]),
        ),
      )
      .select([
        'genets.id',
        'genets.code',
        'genets.taxon',
        'genets.accession',
        'accessions.taxon as accession_taxon',
        'of_lot.id as lot_accession',
        'of_lot.taxon as lot_taxon',
      ])
      .where('genets.id', 'in', chunk)
      .execute();
    for (const row of rows) {
      const before = material.get(row.id);
      material.set(row.id, {
        id: row.id,
        code: row.code,
        accessions: [...(before?.accessions ?? []), row.accession, row.lot_accession],
        taxa: [...(before?.taxa ?? []), row.taxon, row.accession_taxon, row.lot_taxon],
      });
    }
  }
  return material;
}

/** All ancestors of a genet, parents first, then theirs. */
async function ancestorsOf(db: Kysely<Tables>, genet: string): Promise<string[]> {
  const parentsOf = await untilNextAct(db, 'edges to parents', parentEdges);
  const viaLots = await untilNextAct(db, 'seed parents of lots', seedParentsOfLots);
  const found = new Set<string>([genet]);
  // A set is gone through in the order in which it grows: generation by generation.
  for (const here of found) {
    for (const parent of [...(parentsOf.get(here) ?? []), ...(viaLots.get(here) ?? [])]) found.add(parent);
  }
  found.delete(genet);
  return [...found];
}

/** Seed parents, and parents of the cross, of the seed lots from which genets were raised. */
async function seedParentsOfLots(db: Kysely<Tables>): Promise<Map<string, string[]>> {
  const rows = await db
    .selectFrom('genets')
    .leftJoin('sowings', 'sowings.id', 'genets.sowing')
    .innerJoin('seed_lots', (join) =>
      join.on((on) =>
        on.or([
          on('seed_lots.id', '=', on.ref('genets.seed_lot')),
          on('seed_lots.id', '=', on.ref('sowings.seed_lot')),
        ]),
      ),
    )
    .leftJoin('crosses_parents', 'crosses_parents.owner', 'seed_lots.cross')
    .select(['genets.id', 'seed_lots.seed_parent', 'crosses_parents.parent'])
    .execute();
  const parents = new Map<string, string[]>();
  for (const { id, seed_parent, parent } of rows) {
    for (const one of [seed_parent, parent])
      if (one !== null) parents.set(id, [...(parents.get(id) ?? []), one]);
  }
  return parents;
}
