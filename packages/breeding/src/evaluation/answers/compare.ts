import { normalCdf, seededRandom } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import { genetValues } from '../genet-values.ts';
import { halfOf80 } from '../half-of-80.ts';
import type { PairCompared } from '../report.ts';
import { valueParts } from '../value-parts.ts';
import { atEachFit, errorInDoubt } from '../variances-in-doubt/at-each-fit.ts';
import { errorWithMore } from './error-with-more.ts';

const further = [1, 2, 3];

/**
 * Holds two genets against each other: the difference of all that they are with its standard error, the covariance of
 * their prediction errors included (Henderson 1975), and the chance that the first truly has more.
 * a, b: ids of genets with an estimate in this evaluation.
 */
export function comparePair(evaluation: Evaluation, a: string, b: string, unit: string | null): PairCompared {
  const { effect: difference, se: atBest } = differenceOf(evaluation, a, b);
  const se = errorInDoubt(
    difference,
    atEachFit(evaluation, (at) => differenceOf(at, a, b)),
  );
  const { se: seInDoubt, ...own } = inOwnUnit(evaluation, a, b, { difference, se, of: 'se' });
  const { se: seAtBest } = inOwnUnit(evaluation, a, b, { difference, se: atBest, of: 'atBest' });
  // Errors in the trait's unit, and with the doubt about the variances, are taken to shrink as that at the best ones does.
  const shrunk = (smaller: number) => {
    const share = atBest > 0 ? smaller / atBest : 1;
    return { se: seAtBest * share, seInDoubt: seInDoubt * share };
  };
  const more = errorWithMore(evaluation, a, b);
  return {
    a,
    b,
    unit,
    ...own,
    se: seAtBest,
    seInDoubt,
    chanceAMore: se > 0 ? normalCdf(difference / se) : 0.5,
    withMoreYears: further.flatMap((years) => {
      const smaller = more({ years });
      return smaller === null ? [] : [{ years, ...shrunk(smaller) }];
    }),
    withMorePlants: further.flatMap((plants) => {
      const smaller = more({ plants });
      return smaller === null ? [] : [{ plants, ...shrunk(smaller) }];
    }),
  };
}

/** A difference on the scale of the sums with one of its errors, and which error of single genets goes with that. */
interface Difference {
  readonly difference: number;
  readonly se: number;
  readonly of: 'se' | 'atBest';
}

/** The difference on the scale of the sums. */
function differenceOf(evaluation: Evaluation, a: string, b: string): { effect: number; se: number } {
  const { fitted, depression } = evaluation;
  const parts = valueParts(evaluation);
  const { estimate, se } = fitted.combine(
    parts.flatMap(({ effectOf }) => [effectOf(a, 1) ?? [], effectOf(b, -1) ?? []].flat()),
  );
  const unseen = parts
    .flatMap((part) => [a, b].map((genet) => (part.effectOf(genet, 1) ? 0 : part.own(genet))))
    .reduce((sum, variance) => sum + variance, 0);
  const more = depression ? depression.inbreeding(a) - depression.inbreeding(b) : 0;
  return {
    effect: estimate + more * (depression?.slope ?? 0),
    se: Math.sqrt(se ** 2 + unseen + (more * (depression?.se ?? 0)) ** 2),
  };
}

const draws = 4000;

/**
 * The difference in the trait's unit. On a bent scale it depends on where the two stand, so its range is taken from seeded
 * joint draws of the two; the difference is that of the two estimates. Drawn in one order of the two, so that a less b is
 * b less a turned about.
 */
function inOwnUnit(
  evaluation: Evaluation,
  a: string,
  b: string,
  { difference, se, of }: Difference,
): Pick<PairCompared, 'difference' | 'se' | 'low' | 'high'> {
  const { scale, level } = evaluation;
  if (scale.name === 'as noted')
    return { difference, se, low: difference - halfOf80 * se, high: difference + halfOf80 * se };
  if (a > b) {
    const turned = inOwnUnit(evaluation, b, a, { difference: -difference, se, of });
    return { difference: -turned.difference, se: turned.se, low: -turned.high, high: -turned.low };
  }
  const values = genetValues(evaluation);
  const [first, second] = [a, b].map((id) => values.find(({ genet }) => genet === id)!.total);
  // The difference and the second: their covariance follows from the three variances.
  const withSecond = (first![of] ** 2 - se ** 2 - second![of] ** 2) / 2;
  const slope = se > 0 ? withSecond / se ** 2 : 0;
  const rest = Math.sqrt(Math.max(0, second![of] ** 2 - slope ** 2 * se ** 2));
  const random = seededRandom('two genets');
  const drawn = Float64Array.from({ length: draws }, () => {
    const error = random.normal(0, se);
    const other = level + second!.effect + slope * error + random.normal(0, rest);
    return scale.from(other + difference + error) - scale.from(other);
  }).sort();
  const [low, high] = [drawn[draws / 10]!, drawn[(9 * draws) / 10]!];
  return {
    difference: scale.from(level + first!.effect) - scale.from(level + second!.effect),
    se: (high - low) / (2 * halfOf80),
    low,
    high,
  };
}
