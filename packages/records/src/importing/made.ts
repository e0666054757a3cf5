import { type AnyRow, type KindName, kindOf, labelOf, type TraitRule } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { fieldError } from '../errors.ts';
import type { Act } from '../writing/act.ts';
import { allProblems, type Checking, insertReady } from '../writing/add.ts';
import { prepareReferences, referencesIn } from '../writing/encode.ts';
import type { Interpreted, PlantSaid } from './interpret.ts';
import { type ImportPlan, makeable } from './plan.ts';

/** What a record that is made from its code alone holds beside it. */
function bare(kind: KindName, code: string, asked: KindName, said: PlantSaid | undefined): AnyRow {
  switch (kind) {
    case 'plants':
      return { code, genet: said?.genet ?? code, place: said?.place ?? null };
    case 'places':
      return { code, sort: asked === 'notes' ? 'site' : 'bed' };
    case 'traits':
      return { code, name: code, sort: 'measured' };
    case 'taxa':
      return { name: code };
    default:
      return { code };
  }
}

const keyOf = (kind: KindName): string => (kind === 'taxa' ? 'name' : 'code');

/**
 * Makes the records that the rows name and the programme lacks, of the kinds that the plan allows; a plant needs its
 * genet, which is made with it. store: false learns their ids without storing them.
 * Returns how many were made by kind, and the codes of those that were not allowed.
 */
export async function makeMissing(
  doing: Act,
  plan: ImportPlan,
  rows: readonly Interpreted[],
  checking: Checking,
  store: boolean,
): Promise<{ made: Map<KindName, number>; missing: Map<KindName, string[]> }> {
  const made = new Map<KindName, number>();
  const missing = new Map<KindName, string[]>();
  // Plants before genets: the genets that new plants need are found among the missing then.
  const wanted = referencesIn(
    plan.kind,
    rows.map(({ record }) => record),
  );
  const saidOf = new Map(
    rows.flatMap(({ record, plantSaid }) => (plantSaid ? [[record.plant as string, plantSaid]] : [])),
  );
  /** Genets and places that come with plants that are made. */
  const withPlants = new Set<string>();
  const plants = [...(wanted.get('plants') ?? [])].filter(
    (code) => checking.references.idOf('plants', code) === null,
  );
  if (plants.length > 0 && plan.make?.includes('plants')) {
    const want = async (kind: 'genets' | 'places', codes: readonly (string | null)[]) => {
      const known = codes.filter((code) => code !== null);
      await checking.references.prepare(kind, known);
      wanted.set(kind, new Set([...(wanted.get(kind) ?? []), ...known]));
      for (const code of known) withPlants.add(code);
    };
    await want(
      'genets',
      plants.map((code) => saidOf.get(code)?.genet ?? code),
    );
    await want(
      'places',
      plants.map((code) => saidOf.get(code)?.place ?? null),
    );
  }
  const first: readonly KindName[] = ['genets', 'places'];
  const order = [...first, ...makeable.filter((kind) => !first.includes(kind))];
  for (const kind of [...order, ...[...wanted.keys()].filter((kind) => !order.includes(kind))]) {
    const unknown = [...(wanted.get(kind) ?? [])].filter(
      (code) => checking.references.idOf(kind, code) === null,
    );
    if (unknown.length === 0) continue;
    const needed =
      plan.make?.includes(kind) ||
      ((kind === 'genets' || kind === 'places') && unknown.every((code) => withPlants.has(code)));
    if (!needed || !makeable.includes(kind)) {
      missing.set(kind, unknown);
      continue;
    }
    const records = unknown.map((code) =>
      bare(kind, code, withPlants.has(code) ? 'plants' : plan.kind, saidOf.get(code)),
    );
    await storeMade(doing, kind, records, checking, store);
    made.set(kind, unknown.length);
  }
  return { made, missing };
}

async function storeMade(
  doing: Act,
  kind: KindName,
  records: readonly AnyRow[],
  checking: Checking,
  store: boolean,
): Promise<void> {
  const ids = records.map(() => newId());
  for (const [index, record] of records.entries())
    checking.references.learn(kind, record[keyOf(kind)] as string, ids[index]!);
  await prepareReferences(checking.references, kind, records);
  const ready = records.map((record, index) => {
    const { problems, encoded } = allProblems(kind, record, checking);
    if (problems.length > 0) throw fieldError(`${kindOf(kind).one} “${labelOf(kind, record)}”`, problems);
    return { id: ids[index]!, encoded };
  });
  if (kind === 'traits') learnTraits(checking.traits as Map<string, TraitRule>, records);
  if (store) await insertReady(doing, kind, ready);
}

/** Adds traits to those by which note values are read: under their code, and as people write them by their name. */
export function learnTraits(traits: Map<string, TraitRule>, records: readonly AnyRow[]): void {
  for (const record of records) traits.set(record.code as string, record as unknown as TraitRule);
  for (const record of records) {
    const rule = record as unknown as TraitRule;
    for (const name of [rule.name, rule.name.toLowerCase()]) if (!traits.has(name)) traits.set(name, rule);
  }
}

/** Makes the traits that the plan's columns of values bring with them. */
export async function makeNewTraits(
  doing: Act,
  plan: ImportPlan,
  checking: Checking,
  store: boolean,
): Promise<number> {
  const byCode = new Map<string, AnyRow>();
  for (const use of plan.columns) {
    if (!use || !('trait' in use) || !use.newTrait) continue;
    // Two columns under one header hold values of one trait.
    if (checking.traits.has(use.trait) || byCode.has(use.trait)) continue;
    const { name, sort, unit } = use.newTrait;
    byCode.set(use.trait, { code: use.trait, name, sort, unit: unit ?? null });
  }
  const records = [...byCode.values()];
  if (records.length > 0) await storeMade(doing, 'traits', records, checking, store);
  return records.length;
}
