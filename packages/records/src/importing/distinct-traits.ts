import type { ColumnUse } from './plan.ts';

/**
 * Gives new traits of one file codes of their own: where units are taken off their headers, two columns
 * (`Stratification_days`, `Stratification`) may be left with one name. Columns under one and the same header share a
 * trait.
 */
export function distinctTraits(
  columns: readonly (ColumnUse | null)[],
  headers: readonly string[],
): (ColumnUse | null)[] {
  const headerOf = new Map<string, string>();
  return columns.map((use, index) => {
    if (!use || !('trait' in use) || !use.newTrait) return use;
    const header = headers[index]!.trim();
    const isFree = (code: string) => (headerOf.get(code) ?? header) === header;
    let trait = use.trait;
    for (let number = 2; !isFree(trait); number++) trait = `${use.trait}-${number}`;
    headerOf.set(trait, header);
    return trait === use.trait ? use : { ...use, trait, newTrait: { ...use.newTrait, name: header } };
  });
}
