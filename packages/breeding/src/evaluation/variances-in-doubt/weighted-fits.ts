import {
  FitCancelledError,
  type FitControl,
  type FittedModel,
  fitModel,
  type Model,
  ModelError,
  type Table,
} from '@keelrow/quant';
import { choleskyFactor, solveByFactor, truncatedNormalPoints } from './truncated-normal-points.ts';

/** A fit at variances that may be the true ones, with the chance that is given to them; chances sum to 1. */
export interface WeightedFit {
  readonly chance: number;
  readonly fitted: FittedModel;
}

/** Variances that decide on how far an estimate can be trusted: those of what a genet is, and what is mistaken for it. */
const concerned = (term: string): boolean =>
  ['additive', 'genet', 'family', 'plant'].includes(term) || term.startsWith('genet*');

const points = 16;
/** The points spread so many times wider than the average information says, as likelihoods of variances have long tails. */
const wider = 1.3;
/** Where every standard error is a smaller share of its variance than this, doubt about it changes next to nothing. */
const surelyKnown = 0.1;
/** From so many notes on, the variances are taken as known too, for the time that the points would take. */
const mostNotes = 20_000;
/** A variance that is estimated as 0 is looked at from this share of all variances. */
const nearZero = 0.01;
/** A variance that only follows falls no further than to this share of its estimate. */
const leastFollowing = 0.2;
const leastChance = 1e-3;

/**
 * The variances that may be the true ones, as a few fits with chances: REML gives one best set, but a small garden leaves
 * wide doubt about it, and ranges that take it for the truth are too narrow (R. N. Kackar and D. A. Harville 1984, JASA
 * 79:853-862). As in H. Rue, S. Martino and N. Chopin 2009 (JRSS B 71:319-392) the doubt is integrated over a small set of
 * points, weighted by the REML likelihood under a flat prior of the variances, which serves ranges of effects best (C.
 * Morris and R. Tang 2011, Statistical Science 26:271-287). The points spread evenly through the normal distribution that
 * slope and average information give, cut off at 0; variances of beds, people and notes follow at their best values.
 *
 * @returns the REML fit alone, with chance 1, where there is no such doubt or it cannot be told
 */
export function weightedFits(
  table: Table,
  model: Model,
  fitted: FittedModel,
  control: FitControl = {},
): WeightedFit[] {
  const alone = [{ chance: 1, fitted }];
  const { variances, records } = fitted.result;
  const known = variances.every(
    ({ term, estimate, se }) => !concerned(term) || (se !== null && se < surelyKnown * estimate),
  );
  if (known || records > mostNotes) return alone;
  const proposed = proposedVariances(table, model, fitted);
  if (!proposed) return alone;
  const tried = proposed.flatMap(({ held, logDensity }) => {
    if (control.isCancelled?.()) throw new FitCancelledError();
    const at = fitAt(table, model, held);
    return at ? [{ fitted: at, logWeight: at.result.remlLogLikelihood - logDensity }] : [];
  });
  const most = Math.max(...tried.map(({ logWeight }) => logWeight));
  const weighted = tried.map(({ fitted: at, logWeight }) => ({
    fitted: at,
    weight: Math.exp(logWeight - most),
  }));
  const sum = (of: typeof weighted) => of.reduce((total, { weight }) => total + weight, 0);
  const all = sum(weighted);
  const kept = weighted.filter(({ weight }) => weight > leastChance * all);
  const whole = sum(kept);
  return kept.length > 1
    ? kept.map(({ fitted: at, weight }) => ({ chance: weight / whole, fitted: at }))
    : alone;
}

interface Proposed {
  readonly held: Readonly<Record<string, number>>;
  readonly logDensity: number;
}

function proposedVariances(table: Table, model: Model, { result }: FittedModel): Proposed[] | null {
  const total = result.variances.reduce((sum, { estimate }) => sum + estimate, 0);
  const start = new Map(
    result.variances.map(({ term, estimate }) => [
      term,
      concerned(term) ? Math.max(nearZero * total, estimate) : estimate,
    ]),
  );
  const slopes = fitAt(table, model, Object.fromEntries(start))?.varianceSlopes();
  if (!slopes) return null;
  const { terms, score, information } = slopes;
  // The concerned ones last: points are drawn from the last on, and the others follow.
  const places = terms.map((_, i) => i);
  const order = [
    ...places.filter((i) => !concerned(terms[i]!)),
    ...places.filter((i) => concerned(terms[i]!)),
  ];
  const factor = choleskyFactor(order.map((i) => order.map((k) => information[i * terms.length + k]!)));
  if (!factor) return null;
  const step = solveByFactor(
    factor,
    order.map((i) => score[i]!),
  );
  const mean = order.map((i, place) => start.get(terms[i]!)! + step[place]!);
  const drawn = terms.filter(concerned).length;
  const narrower = factor.map((row) => row.map((entry) => entry / wider));
  return truncatedNormalPoints({ mean, factor: narrower }, drawn, points).map(({ values, logDensity }) => {
    const held = new Map([...start].map(([term]) => [term, 0]));
    for (const [place, i] of order.entries()) {
      const term = terms[i]!;
      const least = concerned(term) ? 0 : leastFollowing * start.get(term)!;
      held.set(term, Math.max(least, values[place]!));
    }
    return { held: Object.fromEntries(held), logDensity };
  });
}

function fitAt(table: Table, model: Model, held: Readonly<Record<string, number>>): FittedModel | null {
  try {
    return fitModel(table, { ...model, held });
  } catch (error) {
    if (error instanceof ModelError) return null;
    throw error;
  }
}
