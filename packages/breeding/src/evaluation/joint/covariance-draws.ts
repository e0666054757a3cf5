import { bend, type Covariances, normalQuantile, type Random, seededRandom } from '@keelrow/quant';
import type { Evaluation } from '../evaluation.ts';
import { correlationBelief } from './correlation-belief.ts';
import type { JointCovariances } from './joint-covariances.ts';

const draws = 12;
/** From so many notes on, covariances are taken as known, as the variances of one trait are, for the time it would take. */
const mostNotes = 20_000;

/**
 * Covariance matrices that may be the true ones, all equally likely. The doubt about them is integrated over a few sets, as in
 * H. Rue, S. Martino and N. Chopin 2009 (JRSS B 71:319-392): variances of each line from its fits at variances that may be
 * true, correlations of each pair from what its fit tells, on Fisher's scale. Sets are spread evenly in each of these (Latin
 * hypercube: M. D. McKay, R. J. Beckman and W. J. Conover 1979, Technometrics 21:239-245) and made positive definite as the
 * best ones are. The same sets on every run.
 *
 * @param lines in the order of the matrices
 * @param apart terms in which lines are taken as independent
 */
export function covarianceDraws(
  lines: readonly Evaluation[],
  { matrices, pairs }: JointCovariances,
  apart: readonly string[],
): Covariances[] {
  const notes = lines.reduce((sum, line) => sum + line.notes.length, 0);
  if (notes > mostNotes) return [];
  const n = lines.length;
  const random = seededRandom('covariances in doubt');
  const fits = lines.map((line, t) => chosenFits(line, evenShares(random.fork(`line ${t}`))));
  const correlations = pairs.map(({ at: [i, j], fit }) => {
    const { terms, mean, root } = correlationBelief(fit, apart);
    const normal = terms.map((term) =>
      evenShares(random.fork(`${i} ${j} ${term}`)).map((share) => normalQuantile(share)),
    );
    return { i, j, terms, mean, root, normal };
  });
  return Array.from({ length: draws }, (_, draw) => {
    const drawn = new Map<string, Float64Array>();
    for (const [term, best] of matrices) {
      const matrix = new Float64Array(n * n);
      for (let t = 0; t < n; t++)
        matrix[t * n + t] = varianceAt(lines[t]!, fits[t]![draw]!, term, best[t * n + t]!);
      for (const { i, j, terms, mean, root, normal } of correlations) {
        const k = terms.indexOf(term);
        if (k < 0) continue;
        const z = root[k]!.reduce((sum, x, e) => (e <= k ? sum + x * normal[e]![draw]! : sum), mean[k]!);
        matrix[i * n + j] = Math.tanh(z) * Math.sqrt(matrix[i * n + i]! * matrix[j * n + j]!);
        matrix[j * n + i] = matrix[i * n + j]!;
      }
      drawn.set(term, bend(matrix, n).matrix);
    }
    return drawn;
  });
}

/** One share within each of as many equal parts of 0 to 1, in any order. */
function evenShares(random: Random): number[] {
  return random.shuffle(Array.from({ length: draws }, (_, k) => (k + random.uniform()) / draws));
}

type Fitted = Evaluation['fitted'];

/** The fit of a line that each share falls on. */
function chosenFits({ fits }: Evaluation, shares: readonly number[]): Fitted[] {
  return shares.map((share) => {
    let below = 0;
    const found = fits.find(({ chance }) => {
      below += chance;
      return share < below;
    });
    return (found ?? fits.at(-1)!).fitted;
  });
}

/** A line's variance in a draw: the best of the pairs, moved as the line's own fit moves; 0 of a term that it does not have. */
function varianceAt({ fitted }: Evaluation, at: Fitted, term: string, best: number): number {
  const of = ({ result }: Fitted) => result.variances.find((one) => one.term === term)?.estimate ?? 0;
  const alone = of(fitted);
  return best > 0 && alone > 0 ? (best * of(at)) / alone : best;
}
