import { dateOfDay, dayNumber, inWords, keptAs, type Measure } from '../../facts/index.ts';
import type { Evaluation } from '../evaluation.ts';
import type { NoteDistance } from './far-notes.ts';
import type { Shown } from './shown-beside.ts';

const variancesInWords: Readonly<Record<string, string>> = {
  additive: 'between genets, handed on to seedlings',
  genet: 'between genets',
  plant: 'between plants of one genet',
  bed: 'between beds',
  'season*bed': 'between seasons of one bed',
  row: 'between rows of a bed',
  column: 'between columns of a bed',
  family: 'between families of full sibs, beyond what parents hand on',
  'genet*light': 'between genets in how they take light',
  'genet*moisture': 'between genets in how they take moisture',
  'genet*site': 'between genets in how they take the site',
  observer: 'between people who noted',
  residual: 'between notes on one plant: weather, chance and slips',
};

/** Words of a variance; what genets are beyond their additive effect is told as such where that stands beside it. */
export const varianceInWords = (term: string, besideAdditive: boolean): string =>
  term === 'genet' && besideAdditive
    ? 'between genets, beyond what is handed on'
    : (variancesInWords[term] ?? term);

const alike: Readonly<Record<string, string>> = {
  plant: 'Plants of one genet do not differ beyond chance.',
  bed: 'Beds do not differ beyond chance.',
  observer: 'The people who took the notes do not differ beyond chance.',
};

/** What the fit itself found out, in the breeder's words. */
export function heedOf(evaluation: Evaluation, measure: Measure): string[] {
  const {
    fitted: { result },
    chosen,
    model,
    depression,
  } = evaluation;
  const heed: string[] = [];
  if (!result.converged) heed.push('The sums did not settle; take these figures as rough.');
  const ofGenets = result.variances.filter(({ term }) => ['additive', 'family', 'genet'].includes(term));
  if (ofGenets.every(({ estimate }) => estimate === 0))
    heed.push('The notes show no difference between genets beyond chance: this ranking says nothing.');
  else if (model.additive && ofGenets.some(({ term, estimate }) => term === 'additive' && estimate === 0))
    heed.push('Kin are no more alike than others: what a genet hands on does not show in these notes.');
  for (const { term, estimate } of result.variances)
    if (estimate === 0 && alike[term]) heed.push(alike[term]);
  if (result.variances.some(({ estimate, se }) => estimate > 0 && se === null))
    heed.push('The parts of the variation can hardly be told apart from these notes.');
  // A class that depends on others has no column of its own in the fit.
  const classes = chosen.fixed.reduce((sum, term) => sum + new Set(chosen.columns.get(term)).size - 1, 1);
  if (result.fixed.length < classes + (depression ? 1 : 0)) {
    heed.push(
      'Some seasons, ages, beds or people occur only together, so what each of them did cannot be told apart.',
    );
  }
  return [...heed, ...inbreedingInWords(evaluation, measure)];
}

/** What a tenth more of inbreeding does to the average noted genet. */
function inbreedingInWords(
  { depression, scale, level }: Evaluation,
  { unit, spanToShown }: Measure,
): string[] {
  if (!depression || depression.slope === 0) return [];
  const after = (slope: number) => Math.abs(spanToShown(scale.from(level + slope / 10) - scale.from(level)));
  const [change, error] = [after(depression.slope), after(depression.se)];
  return [
    `Inbred genets have ${depression.slope < 0 ? 'less' : 'more'}: ${Number(change.toPrecision(3))} ± ${Number(error.toPrecision(2))}${unit ? ` ${unit}` : ''} for each 0.1 of inbreeding.`,
  ];
}

const farNotesShown = 5;

/** Names the notes to look at again, farthest first; one slip can lift a genet to the top. */
export function farInWords(
  notes: Evaluation['notes'],
  far: readonly NoteDistance[],
  { trait, genets }: Shown,
  measure: Measure,
): string[] {
  const found = far.toSorted((a, b) => b.distance - a.distance).map(({ row }) => notes[row]!);
  if (found.length === 0) return [];
  const isDate = keptAs[trait.sort] === 'date';
  const words = found.slice(0, farNotesShown).map(({ value, genet, year }) => {
    const code = genets.get(genet)?.code ?? genet;
    if (isDate) return `${dateOfDay(dayNumber(`${year}-01-01`) + Math.round(value) - 1)} on ${code}`;
    return `${inWords(value, measure)} on ${code} in ${year}`;
  });
  const rest = found.length > farNotesShown ? `; and ${found.length - farNotesShown} more` : '';
  return [
    found.length === 1
      ? `One note lies far from all others, as slips do, and counts in these estimates: ${words[0]}. Look at it again before trusting the genet it is on.`
      : `${found.length} notes lie far from all others, as slips do, and count in these estimates: ${words.join('; ')}${rest}. Look at them again before trusting the genets they are on.`,
  ];
}
