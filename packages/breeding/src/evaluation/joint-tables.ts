import type { AdditiveTerm, Model, TraitTable } from '@keelrow/quant';
import { additiveTerm, type PedigreeEntry } from '../pedigree/index.ts';
import type { Evaluation } from './estimate.ts';
import { kinOf } from './kin.ts';
import { entriesOfKin } from './kin-entries.ts';
import type { TraitNote } from './trait-note.ts';

/** Random terms whose effects on several traits go together; of beds, people and the like each trait has its own. */
const together: ReadonlySet<string> = new Set(['additive', 'genet', 'plant', 'residual']);

export interface JointTables {
  readonly tables: readonly TraitTable[];
  /** Terms in which the traits are taken as independent. */
  readonly apart: readonly string[];
}

/**
 * The lines as tables to be fitted together: the model of each, with one kinship for all (γ the middle one of theirs), and
 * occasions: the first notes of two lines on a plant in one year share theirs, so do the second ones. A family effect
 * stays out, as its levels are not genets; what it held goes to the additive and genet effects.
 */
export function jointTables(
  lines: readonly { readonly key: string; readonly evaluation: Evaluation }[],
  pedigree: readonly PedigreeEntry[] | null,
): JointTables {
  const additive = commonAdditive(
    lines.map(({ evaluation }) => evaluation),
    pedigree,
  );
  const tables = lines.map(({ key, evaluation: { notes, table, model, fitted } }): TraitTable => {
    const { additive: own, random, ...rest } = model;
    const kept: Model = { ...rest, random: random.filter((term) => term !== 'family') };
    return {
      name: key,
      table: {
        columns: new Map([
          ...table.columns,
          ['additive', notes.map(({ genet }) => genet)],
          ['occasion', occasionsOf(notes)],
        ]),
      },
      model: own && additive ? { ...kept, additive } : kept,
      occasion: 'occasion',
      variances: Object.fromEntries(
        fitted.result.variances
          .filter(({ term }) => term !== 'family')
          .map(({ term, estimate }) => [term, estimate]),
      ),
    };
  });
  const terms = new Set(tables.flatMap(({ model }) => model.random));
  return { tables, apart: [...terms].filter((term) => !together.has(term)) };
}

function commonAdditive(
  evaluations: readonly Evaluation[],
  pedigree: readonly PedigreeEntry[] | null,
): AdditiveTerm | null {
  const kins = evaluations.flatMap(({ kin }) => kin ?? []);
  if (kins.length === 0 || pedigree === null) return null;
  const gammas = kins.flatMap(({ gamma }) => gamma ?? []).sort((a, b) => a - b);
  const noted = new Set(evaluations.flatMap(({ notedGenets }) => [...notedGenets]));
  const { kinship } = kinOf(entriesOfKin(pedigree, noted), gammas[gammas.length >> 1] ?? null);
  return additiveTerm(kinship, 'additive');
}

function occasionsOf(notes: readonly TraitNote[]): string[] {
  const before = new Map<string, number>();
  return notes.map(({ plant, genet, year }) => {
    const season = `${plant ?? genet} ${year}`;
    const count = (before.get(season) ?? 0) + 1;
    before.set(season, count);
    return `${season} ${count}`;
  });
}
