import { type FittedModel, fitModel, ModelError } from '@keelrow/quant';
import type { TraitSort } from '../../facts/index.ts';
import { inSpreads } from '../report/far-notes.ts';
import { asNoted, logarithm, logOdds, type Scale, squareRoot } from '../scale.ts';
import type { TraitNote } from '../trait-note.ts';
import type { ChosenModel } from './choose-model.ts';
import { someGenets } from './some-genets.ts';
import { tableOf } from './table.ts';
import { counted } from './terms/classes.ts';

/** What of a trait decides on its scale. */
export interface TraitKind {
  readonly sort: TraitSort;
  readonly unit: string | null;
  /** Limits beyond which a value is a slip. */
  readonly least?: number | null;
  readonly most?: number | null;
}

const fewestNotes = 20;
/** Where the largest value is less than so many times the smallest, bending the scale changes next to nothing. */
const leastRatio = 2;
/** Another scale than the noted one has to be likelier by e to this power. */
const clearly = 2;
const mostNotes = 3000;
const rounds = 15;
/** Notes so many spreads away are taken for slips here, if they are few: one slip can call for a logarithm. */
const far = 6;
const mostFar = 0.01;

/**
 * The scale on which the sums for a trait are made. Dates and scores are taken as noted, percentages by their log-odds. For
 * measures and counts the noted scale, square roots and logarithms are held against each other by the REML likelihood of the
 * notes themselves, the Jacobian included (Box & Cox 1964, JRSS B 26:211-252; with random effects Gurka, Edwards, Muller &
 * Kupper 2006, JRSS A 169:273-288), in a model of season, bed, age, observer and genet, on at most some 3,000 notes.
 */
export function chooseScale(
  notes: readonly TraitNote[],
  chosen: ChosenModel,
  kind: TraitKind | undefined,
): Scale {
  if (!kind) return asNoted('Values are taken as they were noted.');
  const values = notes.map(({ value }) => value);
  const least = Math.min(...minMax(values));
  const most = Math.max(...minMax(values));
  switch (kind.sort) {
    case 'staged':
    case 'dated':
      return asNoted('Dates are taken as days of their year.');
    case 'scored':
      return asNoted('Scores are taken as noted; no estimate goes beyond the ends of the scale.', [
        kind.least ?? -Infinity,
        kind.most ?? Infinity,
      ]);
  }
  if (kind.unit === '%' && least >= 0 && most <= 100) {
    const step = smallestStep(values);
    const drawnIn =
      least === 0 || most === 100
        ? `; 0 and 100, which have none, are taken for ${step / 2} % further in`
        : '';
    return logOdds(
      `Percentages are taken by their log-odds, so that no range leaves 0 to 100 %${drawnIn}.`,
      step,
    );
  }
  const limits = [least >= 0 ? 0 : -Infinity, Infinity] as const;
  const plain = (words: string) => asNoted(words, limits);
  if (least < 0) return plain('Values are taken as they were noted.');
  if (notes.length < fewestNotes)
    return plain('Values are taken as they were noted: too few to judge their scale.');
  if (most < leastRatio * least)
    return plain('Values are taken as they were noted: they differ too little for another scale to matter.');
  return likeliest(notes, chosen, kind, plain);
}

function likeliest(
  notes: readonly TraitNote[],
  chosen: ChosenModel,
  { sort, unit }: TraitKind,
  plain: (words: string) => Scale,
): Scale {
  const added = sort === 'counted' && notes.some(({ value }) => value === 0) ? 0.5 : 0;
  const hasZero = added === 0 && notes.some(({ value }) => value === 0);
  const unitWords = unit ?? (sort === 'counted' ? 'numbers' : 'its own unit');
  const half = added > 0 ? ', half a count added as some are 0' : '';
  const noted = plain(
    hasZero
      ? 'Values are taken as they were noted: some are 0, which has no logarithm.'
      : 'Values are taken as they were noted: neither square roots nor logarithms fit the notes better.',
  );
  if (hasZero) return noted;
  const rest = `, as larger values scatter more; estimates are back in ${unitWords}, with ranges wider above than below.`;
  const some = someGenets(notes, mostNotes);
  const scales = [
    noted,
    squareRoot(`Square roots were taken${half}${rest}`, added),
    logarithm(`Logarithms were taken${half}${rest}`, added),
  ];
  const all = rowsOf(notes, chosen, (row) => some.has(notes[row]!.genet));
  const slips = new Set(scales.flatMap((scale) => slipsOn(scale, all)));
  const rows = rowsOf(all.notes, all.chosen, (row) => !slips.has(row));
  const likelihoods = scales.map((scale) => logLikelihood(rows, scale, added));
  const best = likelihoods.indexOf(Math.max(...likelihoods));
  return likelihoods[best]! > likelihoods[0]! + clearly ? scales[best]! : noted;
}

/** Notes with their classes. */
interface Rows {
  readonly notes: readonly TraitNote[];
  readonly chosen: ChosenModel;
}

function rowsOf(notes: readonly TraitNote[], chosen: ChosenModel, keep: (row: number) => boolean): Rows {
  const at = [...notes.keys()].filter(keep);
  const columns = new Map(
    [...chosen.columns].map(([name, classes]) => [name, at.map((row) => classes[row]!)]),
  );
  return { notes: at.map((row) => notes[row]!), chosen: { ...chosen, columns } };
}

/** Rows that lie far off on this scale, where they are few. */
function slipsOn(scale: Scale, rows: Rows): number[] {
  const fitted = fitOn(scale, rows);
  if (!fitted) return [];
  const distances = inSpreads([...fitted.fittedRows().standardised]);
  const slips = [...distances.keys()].filter((row) => distances[row]! > far);
  return slips.length <= Math.max(1, mostFar * rows.notes.length) ? slips : [];
}

/** Season, bed, age, observer and genet, as far as these are in the model; null where that cannot be fitted. */
function fitOn(scale: Scale, { notes, chosen }: Rows): FittedModel | null {
  const genets = counted(notes.map(({ genet }) => genet));
  const repeated = [...genets.values()].some((each) => each > 1) && genets.size > 1;
  const several = (term: string) => new Set(chosen.columns.get(term)).size > 1;
  const random = chosen.random.filter((term) => (term === 'bed' || term === 'observer') && several(term));
  try {
    return fitModel(
      tableOf(notes, chosen, scale),
      {
        response: 'value',
        fixed: chosen.fixed.filter(several),
        random: [...(repeated ? ['genet'] : []), ...random],
      },
      { maxIterations: rounds },
    );
  } catch (error) {
    if (error instanceof ModelError) return null;
    throw error;
  }
}

/** REML log-likelihood of the notes in their own unit; −∞ where the model cannot be fitted. */
function logLikelihood(rows: Rows, scale: Scale, added: number): number {
  const fitted = fitOn(scale, rows);
  if (!fitted) return -Infinity;
  const { result } = fitted;
  // The likelihood of contrasts has n − p dimensions: the Jacobian counts by that share.
  const share = (rows.notes.length - result.fixed.length) / rows.notes.length;
  const jacobian = rows.notes.reduce((sum, { value }) => sum + logSlope(scale, value + added), 0);
  return result.remlLogLikelihood + share * jacobian;
}

function logSlope({ name }: Scale, value: number): number {
  if (name === 'square root') return -Math.log(2) - Math.log(value) / 2;
  return name === 'logarithm' ? -Math.log(value) : 0;
}

/** The smallest difference between two notes, at least 1 (per cent). */
function smallestStep(values: readonly number[]): number {
  const distinct = [...new Set(values)].sort((a, b) => a - b);
  const steps = distinct.slice(1).map((value, index) => value - distinct[index]!);
  return Math.max(1, Math.min(10, ...steps));
}

const minMax = (values: readonly number[]): [number, number] =>
  values.reduce<[number, number]>(
    ([least, most], value) => [Math.min(least, value), Math.max(most, value)],
    [Infinity, -Infinity],
  );
