import {
  type AnyRow,
  type FieldProblem,
  type NoteValue,
  type TraitRule,
  type TraitSort,
  valueProblem,
} from '@keelrow/breeding/facts';
import type { Kysely } from 'kysely';
import type { Tables } from '../schema/columns.ts';

/** The traits of the programme by code and by id, as far as they decide what their notes may hold. */
export async function traitRules(db: Kysely<Tables>): Promise<Map<string, TraitRule>> {
  const rows = await db
    .selectFrom('traits')
    .select(['id', 'code', 'name', 'sort', 'unit', 'least', 'most', 'classes'])
    .where('ended_act', 'is', null)
    .execute();
  const rules = new Map<string, TraitRule>();
  for (const row of rows) {
    const rule = {
      ...row,
      sort: row.sort as TraitSort,
      classes: row.classes ? row.classes.split(' | ') : null,
    };
    rules.set(row.id, rule);
    rules.set(row.code, rule);
  }
  // People write a trait by its name as often as by its code.
  for (const row of rows) {
    for (const name of [row.name, row.name.toLowerCase()])
      if (!rules.has(name)) rules.set(name, rules.get(row.id)!);
  }
  return rules;
}

/** What is wrong with a note's value for its trait; null if nothing is, or the trait is not known. */
export function noteValueProblem(row: AnyRow, traits: ReadonlyMap<string, TraitRule>): FieldProblem | null {
  const trait = traits.get(String(row.trait ?? ''));
  if (!trait || row.value === null || row.value === undefined || row.value === '') return null;
  const problem = valueProblem(trait, row.value as NoteValue);
  return problem ? { field: 'value', problem } : null;
}
