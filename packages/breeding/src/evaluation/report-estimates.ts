import type { FitResult } from '@keelrow/quant';
import { dateOfDay, dayNumber, keptAs } from '../facts/index.ts';
import { type Evaluation, type evaluate, halfOf80 } from './estimate.ts';
import { farNotes } from './far-notes.ts';
import type { EstimatesReport, GenetEstimate } from './report.ts';
import type { TraitNote } from './trait-note.ts';

/** What of a trait and its genets is shown beside the estimates. */
export interface Shown {
  readonly trait: EstimatesReport['trait'];
  readonly genets: ReadonlyMap<
    string,
    { readonly code: string; readonly name: string | null; readonly standard: boolean }
  >;
}

const variancesInWords: Readonly<Record<string, string>> = {
  genet: 'between genets: what ranking rests on',
  plant: 'between plants of one genet',
  bed: 'between beds',
  observer: 'between people who noted',
  residual: 'between notes on one plant: weather, chance and slips',
};

/** Ranks genets from an evaluation. */
export function reportEstimates(
  evaluation: ReturnType<typeof evaluate>,
  notes: readonly TraitNote[],
  shown: Shown,
): EstimatesReport {
  const { chosen } = evaluation;
  const base = {
    trait: shown.trait,
    notes: notes.length,
    genets: new Set(notes.map(({ genet }) => genet)).size,
    years: [...new Set(notes.map(({ year }) => year))].sort((a, b) => a - b),
    tookIntoAccount: chosen.tookIntoAccount,
    couldNotSeparate: chosen.couldNotSeparate,
  };
  if (evaluation.fitted === null)
    return { ...base, heed: [], repeatability: null, variances: [], estimates: [] };
  const { result } = evaluation.fitted;
  const estimates = genetEstimates(evaluation, shown);
  const descending = shown.trait.wanted !== 'less';
  return {
    ...base,
    heed: [...heedOf(evaluation), ...farInWords(evaluation, shown)],
    repeatability: repeatabilityOf(result),
    variances: result.variances.map(({ term, estimate, se }) => ({
      term,
      words: variancesInWords[term] ?? term,
      estimate,
      se,
    })),
    estimates: estimates.sort(
      (a, b) =>
        (descending ? b.estimate - a.estimate : a.estimate - b.estimate) || (a.code < b.code ? -1 : 1),
    ),
  };
}

function genetEstimates({ fitted, notes, level }: Evaluation, { genets }: Shown): GenetEstimate[] {
  const own = new Map<string, TraitNote[]>();
  for (const note of notes) {
    const list = own.get(note.genet);
    if (list) list.push(note);
    else own.set(note.genet, [note]);
  }
  return fitted.result.effects
    .filter(({ term }) => term === 'genet')
    .map(({ level: id, estimate: effect, se, reliability }) => {
      const of = own.get(id) ?? [];
      const genet = genets.get(id);
      return {
        id,
        code: genet?.code ?? id,
        name: genet?.name ?? null,
        standard: genet?.standard ?? false,
        estimate: level + effect,
        effect,
        se,
        low: level + effect - halfOf80 * se,
        high: level + effect + halfOf80 * se,
        notes: of.length,
        years: new Set(of.map(({ year }) => year)).size,
        plants: new Set(of.map(({ plant }) => plant)).size,
        mean: of.length > 0 ? of.reduce((sum, { value }) => sum + value, 0) / of.length : null,
        reliability,
      };
    });
}

const alike: Readonly<Record<string, string>> = {
  genet: 'The notes show no difference between genets beyond chance: this ranking says nothing.',
  plant: 'Plants of one genet do not differ beyond chance.',
  bed: 'Beds do not differ beyond chance.',
  observer: 'The people who took the notes do not differ beyond chance.',
};

/** What the fit itself found out, in the breeder's words. */
function heedOf({ fitted: { result }, chosen }: Evaluation): string[] {
  const heed: string[] = [];
  if (!result.converged) heed.push('The sums did not settle; take these figures as rough.');
  for (const { term, estimate } of result.variances)
    if (estimate === 0 && alike[term]) heed.push(alike[term]);
  if (result.variances.some(({ estimate, se }) => estimate > 0 && se === null))
    heed.push('The parts of the variation can hardly be told apart from these notes.');
  // A class that depends on others has no column of its own in the fit.
  const classes = chosen.fixed.reduce((sum, term) => sum + new Set(chosen.columns.get(term)).size - 1, 1);
  if (result.fixed.length < classes) {
    heed.push(
      'Some seasons, ages, beds or people occur only together, so what each of them did cannot be told apart.',
    );
  }
  return heed;
}

const farNotesShown = 5;

/** Names the notes to look at again; one slip can lift a genet to the top. */
function farInWords(evaluation: Evaluation, { trait, genets }: Shown): string[] {
  const found = farNotes(evaluation);
  if (found.length === 0) return [];
  const isDate = keptAs[trait.sort] === 'date';
  const words = found.slice(0, farNotesShown).map(({ value, genet, year }) => {
    const code = genets.get(genet)?.code ?? genet;
    if (isDate) return `${dateOfDay(dayNumber(`${year}-01-01`) + Math.round(value) - 1)} on ${code}`;
    return `${value}${trait.unit ? ` ${trait.unit}` : ''} on ${code} in ${year}`;
  });
  const rest = found.length > farNotesShown ? `; and ${found.length - farNotesShown} more` : '';
  return [
    `${found.length === 1 ? 'One note lies' : `${found.length} notes lie`} far from all others, as slips do, and count in these estimates: ${words.join('; ')}${rest}. Look at them again before trusting the genets they are on.`,
  ];
}

/**
 * Share of the variance of single notes (within season, age and observer) that lies between genets: the repeatability
 * of the genet. Its standard error is left to the evaluation with kinship, which has the variances' covariances.
 */
function repeatabilityOf({ variances }: FitResult): EstimatesReport['repeatability'] {
  const total = variances
    .filter(({ term }) => term !== 'observer')
    .reduce((sum, { estimate }) => sum + estimate, 0);
  const genet = variances.find(({ term }) => term === 'genet')?.estimate ?? 0;
  return total > 0 ? { value: genet / total, se: null } : null;
}
