import { fieldsOf, type KindName } from '@keelrow/breeding/facts';
import type { ColumnUse, ImportPlan, Upload } from '@keelrow/server/contract';

/** The use of a column as the value of a choice, and back. */
export function choiceOf(use: ColumnUse | null): string {
  if (use === null) return 'leave';
  if ('field' in use) return `field ${use.field}`;
  if ('trait' in use) return use.newTrait ? 'new' : `trait ${use.trait}`;
  return 'year';
}

export function choiceAsUse(choice: string, header: string): ColumnUse | null {
  if (choice === 'year') return { year: true };
  if (choice === 'new') return newTraitFor(header);
  if (choice.startsWith('field ')) return { field: choice.slice(6) };
  if (choice.startsWith('trait ')) return { trait: choice.slice(6) };
  return null;
}

/** A new trait by the column's header, its unit taken from brackets: `Spike length (cm)`. */
function newTraitFor(header: string): ColumnUse {
  const { name, unit } = unitInHeader(header);
  return {
    trait: codeFrom(name),
    newTrait: { name, sort: 'measured', ...(unit ? { unit } : {}) },
  };
}

export function unitInHeader(header: string): { name: string; unit: string | null } {
  const found = /^(.*?)\s*[([]\s*([^)\]]{1,12})\s*[)\]]\s*$/.exec(header.trim());
  return found?.[1]
    ? { name: found[1], unit: found[2]!.trim() }
    : { name: header.trim() || 'Trait', unit: null };
}

/** `Spike length` as `spike-length`. */
export const codeFrom = (name: string): string =>
  name
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '') || 'trait';

export function withColumn(plan: ImportPlan, index: number, use: ColumnUse | null): ImportPlan {
  return { ...plan, columns: plan.columns.map((now, at) => (at === index ? use : now)) };
}

/** Up to three different values of a column, as examples. */
export function examplesOf(upload: Upload, index: number): string[] {
  const values = upload.sample.map(({ cells }) => cells[index]?.trim() ?? '').filter((cell) => cell !== '');
  return [...new Set(values)].slice(0, 3);
}

/** Fields that the rows need and that no column gives: they may be the same for every row. */
export function fieldsWithoutColumn(kind: KindName, plan: ImportPlan): string[] {
  const given = new Set(plan.columns.flatMap((use) => (use && 'field' in use ? [use.field] : [])));
  const byTrait = plan.columns.some((use) => use && 'trait' in use);
  const byYear = plan.columns.some((use) => use && 'year' in use);
  return fieldsOf(kind)
    .filter(([name, field]) => {
      if (given.has(name) || !field.required) return false;
      if (kind === 'notes' && name === 'trait') return !byTrait;
      return !(kind === 'notes' && name === 'on' && byYear);
    })
    .map(([name]) => name);
}
