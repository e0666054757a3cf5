import type { Design, PlacedTerm } from './design.ts';
import type { Evaluation } from './evaluation.ts';
import { ModelError } from './model-error.ts';
import { solveAmong } from './small-systems.ts';

/**
 * Refuses random terms whose variances no data could tell apart: two independent terms that group the rows in the same
 * way, and a term with a level of its own for every row.
 */
export function requireSeparableTerms(design: Design, held: ReadonlySet<string>): void {
  const free = design.terms.filter(
    (term) => term.independent && term.entries.value === null && !held.has(term.name),
  );
  const unweighted = design.weights.every((weight) => weight === design.weights[0]);
  for (const term of free) {
    if (term.size === design.records && unweighted && !held.has('residual')) {
      throw new ModelError(
        `"${term.name}" has a level of its own in every row, so its variance cannot be told from the residual`,
        'Leave it out, or add rows so that some levels occur more than once',
        { column: term.name },
      );
    }
  }
  const seen = new Map<string, PlacedTerm>();
  for (const term of free) {
    const grouping = groupingOf(term);
    const before = seen.get(grouping);
    if (before) {
      throw new ModelError(
        `the random terms "${before.name}" and "${term.name}" group the rows in the same way, so their variances cannot be told apart`,
        'Keep one of the two',
        { column: term.name },
      );
    }
    seen.set(grouping, term);
  }
}

/** The grouping of the rows, whatever the levels are called: levels numbered as they first occur. */
function groupingOf(term: PlacedTerm): string {
  const number = new Map<number, number>();
  return Array.from(term.entries.at, (level) => {
    const known = number.get(level) ?? number.size;
    number.set(level, known);
    return known;
  }).join();
}

/** Refuses a term whose levels the fixed terms already tell apart: its effects add nothing that could vary. */
export function requireFreeVariance(term: PlacedTerm, undetermined: number): void {
  if (term.size - undetermined > 1e-7 * term.size) return;
  throw new ModelError(
    `the fixed terms already explain every difference between the levels of "${term.name}", so its variance cannot be estimated`,
    'Leave the random term out, or one of the fixed terms that distinguish its levels',
    { column: term.name },
  );
}

/** A residual variance below this share of what the fixed terms leave is none. */
const LEAST_RESIDUAL = 1e-7;

/**
 * Refuses a model whose random terms explain every row. Where held variances bring that about, they are named with the
 * variance that the fixed terms leave, which all variances together should come to.
 *
 * @param held whether each variance is held, the residual last
 */
export function requireResidual(design: Design, evaluation: Evaluation, held: readonly boolean[]): void {
  const { terms, leastSquares } = design;
  const { variances } = evaluation;
  if (held[terms.length] || variances[terms.length]! > LEAST_RESIDUAL * leastSquares.variance) return;
  const kept = terms.map((_, t) => t).filter((t) => held[t]);
  const together = kept.reduce((sum, t) => sum + variances[t]!, 0);
  if (kept.length > 0 && (kept.length === terms.length || together > leastSquares.variance / 2)) {
    const named = kept.map((t) => `"${terms[t]!.name}" is held at ${shown(variances[t]!)}`).join(' and ');
    throw new ModelError(
      `the variance of ${named}, and that leaves nothing for the residual: about the fixed terms the rows vary by ${shown(leastSquares.variance)} in all`,
      'Hold the residual as well, or hold a smaller variance (in the squared unit of the response), or none',
    );
  }
  throw new ModelError(
    'the random terms explain every row without remainder, so there is no residual variance',
    'Leave out the random term whose levels name single rows, or look whether rows were copied',
  );
}

const shown = (variance: number): string => String(Number(variance.toPrecision(4)));

/** Refuses variances between which the likelihood does not choose, by naming the two that are most alike. */
export function requireSeparated(
  names: readonly string[],
  among: readonly number[],
  information: Float64Array,
): void {
  if (solveAmong(information, names.length, among, new Float64Array(names.length))) return;
  let pair = [among[0]!, among[0]!];
  let alike = -1;
  for (const i of among) {
    for (const k of among) {
      if (k >= i) continue;
      const own = Math.sqrt(information[i * names.length + i]! * information[k * names.length + k]!);
      const likeness = own > 0 ? Math.abs(information[i * names.length + k]!) / own : 0;
      if (likeness > alike) {
        alike = likeness;
        pair = [k, i];
      }
    }
  }
  const [first, second] = pair.map((i) => `"${names[i]}"`);
  throw new ModelError(
    `the rows do not tell the variances of ${first} and ${second} apart`,
    'Leave one of them out, hold one at a known value, or add rows in which they differ',
  );
}

/** Refuses variances at which the equations are singular as far as double precision goes. */
export function requireSolved(evaluation: Evaluation | null): Evaluation {
  if (evaluation) return evaluation;
  throw new ModelError(
    'the variances are so far apart that the equations cannot be solved',
    'Look whether held variances are in the squared unit of the response',
  );
}

/** The error for equations that no memory of this process holds. */
export function tooLarge(design: Design): ModelError {
  return new ModelError(
    `the model has ${design.w.width} equations, whose solution needs more memory than there is`,
    'Leave out the interaction with most levels, or fit fewer rows',
  );
}
