import type { AdditiveTerm, TraitTable } from '@keelrow/quant';
import { additiveTerm, type PedigreeEntry } from '../../pedigree/index.ts';
import type { Evaluation } from '../evaluation.ts';
import { kinOf } from '../kin/kin.ts';
import { entriesOfAncestry, entriesOfKin } from '../kin/kin-entries.ts';
import type { TraitNote } from '../trait-note.ts';

/** Random terms whose effects on several traits go together; of beds, people and the like each trait has its own. */
const together: ReadonlySet<string> = new Set(['additive', 'genet', 'plant', 'residual']);

/** Random terms that hold a smaller share of a line's variation than this are left out of it: they only slow the search. */
const leastShare = 0.01;

export interface JointTables {
  /** To find covariances from: with the noted genets and their ancestors, on whom alone a likelihood depends. */
  readonly pairs: readonly TraitTable[];
  /** To solve for all wanted genets. */
  readonly whole: readonly TraitTable[];
  /** Terms in which the traits are taken as independent. */
  readonly apart: readonly string[];
}

/**
 * The lines as tables to be fitted together: the model of each, with one kinship for all (γ the middle one of theirs), and
 * occasions: the first notes of two lines on a plant in one year share theirs, so do the second ones. A family effect
 * stays out, as its levels are not genets; what it held goes to the additive and genet effects.
 *
 * @param wanted genets whose values will be asked for, as far as they are kin of noted ones
 */
export function jointTables(
  lines: readonly { readonly key: string; readonly evaluation: Evaluation }[],
  pedigree: readonly PedigreeEntry[] | null,
  wanted: readonly string[],
): JointTables {
  const evaluations = lines.map(({ evaluation }) => evaluation);
  const kin = commonKin(evaluations, pedigree);
  const tablesWith = (genets: readonly string[]): TraitTable[] => {
    const additive =
      kin &&
      additiveTerm(
        kinOf(entriesOfAncestry(kin.entries, new Set([...kin.noted, ...genets])), kin.gamma).kinship,
        'additive',
      );
    return lines.map(({ key, evaluation }) => tableOfLine(key, evaluation, additive));
  };
  const pairs = tablesWith([]);
  const terms = new Set(pairs.flatMap(({ model }) => model.random));
  const listed = new Set(kin?.entries.map(({ genet }) => genet));
  return {
    pairs,
    whole: kin ? tablesWith(wanted.filter((genet) => listed.has(genet))) : pairs,
    apart: [...terms].filter((term) => !together.has(term)),
  };
}

function tableOfLine(
  key: string,
  { notes, table, model, fitted }: Evaluation,
  additive: AdditiveTerm | null,
): TraitTable {
  const variances = Object.fromEntries(fitted.result.variances.map(({ term, estimate }) => [term, estimate]));
  const { additive: own, random, ...rest } = model;
  const whole = Object.values(variances).reduce((sum, variance) => sum + variance, 0);
  // Of what a genet is, something has to stay, however little it varies.
  const ofGenet = !own || (variances.genet ?? 0) >= variances.additive!;
  const kept = random.filter(
    (term) => term !== 'family' && (variances[term]! >= leastShare * whole || (term === 'genet' && ofGenet)),
  );
  const withKin =
    own !== undefined &&
    additive !== null &&
    (variances.additive! >= leastShare * whole || !kept.includes('genet'));
  return {
    name: key,
    table: {
      columns: new Map([
        ...table.columns,
        ['additive', notes.map(({ genet }) => genet)],
        ['occasion', occasionsOf(notes)],
      ]),
    },
    model: { ...rest, random: kept, ...(withKin ? { additive } : {}) },
    occasion: 'occasion',
    variances: Object.fromEntries(
      Object.entries(variances).filter(
        ([term]) => term === 'residual' || kept.includes(term) || (term === 'additive' && withKin),
      ),
    ),
  };
}

interface CommonKin {
  readonly entries: readonly PedigreeEntry[];
  readonly noted: ReadonlySet<string>;
  readonly gamma: number | null;
}

function commonKin(
  evaluations: readonly Evaluation[],
  pedigree: readonly PedigreeEntry[] | null,
): CommonKin | null {
  const kins = evaluations.flatMap(({ kin }) => kin ?? []);
  if (kins.length === 0 || pedigree === null) return null;
  const gammas = kins.flatMap(({ gamma }) => gamma ?? []).sort((a, b) => a - b);
  const noted = new Set(evaluations.flatMap(({ notedGenets }) => [...notedGenets]));
  return { entries: entriesOfKin(pedigree, noted), noted, gamma: gammas[gammas.length >> 1] ?? null };
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
