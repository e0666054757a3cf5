import { upperHalfOfBeta } from './beta-half.ts';

/** How often each class of a trait was noted on one genet. */
export type ClassCounts = ReadonlyMap<string, number>;

/** What a garden's notes of a classed trait tell. */
export interface ClassEvidence {
  readonly trait: string;
  readonly classes: readonly string[];
  readonly counts: ReadonlyMap<string, ClassCounts>;
}

/** Shares of the classes in the garden, and how many notes' weight they have for a single genet. */
export interface ClassPrior {
  readonly shares: ReadonlyMap<string, number>;
  readonly weight: number;
}

/** Limits of the prior's weight, in notes, and the spread of its logarithm before the notes speak. */
const smallestWeight = 0.02;
const largestWeight = 200;
const spreadOfLogWeight = 1.5;

/**
 * The prior that the garden's own notes give: each genet's classes are multinomial with shares of its own, these
 * Dirichlet with the garden's shares and a weight that maximises the likelihood of all notes (A. Gelman and others
 * 2013, Bayesian Data Analysis, third edition, chapter 5: partial pooling; the distribution: J. E. Mosimann 1962,
 * Biometrika 49:65-82). Where few genets were noted twice the likelihood hardly tells the weight; a log-normal prior
 * around one note keeps it there (own choice, no source). Each genet counts once in the garden's shares, however often
 * it was noted, and one note is added in equal parts so that no class is impossible. Null without notes.
 */
export function classPrior({ classes, counts }: ClassEvidence): ClassPrior | null {
  const genets = [...counts.values()].filter((own) => total(own) > 0);
  if (genets.length === 0) return null;
  const shares = new Map(
    classes.map((name) => [
      name,
      (genets.reduce((sum, own) => sum + (own.get(name) ?? 0) / total(own), 0) + 1 / classes.length) /
        (genets.length + 1),
    ]),
  );
  const several = genets.filter((own) => total(own) > 1);
  const posterior = (logWeight: number) =>
    several.reduce((sum, own) => sum + logChance(own, shares, Math.exp(logWeight)), 0) -
    (logWeight / spreadOfLogWeight) ** 2 / 2;
  return {
    shares,
    weight: Math.exp(highest(posterior, Math.log(smallestWeight), Math.log(largestWeight))),
  };
}

/** Notes on one genet in all. */
const total = (counts: ClassCounts): number => [...counts.values()].reduce((sum, count) => sum + count, 0);

/** Log-probability of a genet's notes in their order: rising factorials, as counts are whole. */
function logChance(own: ClassCounts, shares: ReadonlyMap<string, number>, weight: number): number {
  let sum = 0;
  for (const [name, count] of own) {
    for (let k = 0; k < count; k++) sum += Math.log(weight * (shares.get(name) ?? 0) + k);
  }
  for (let k = 0; k < total(own); k++) sum -= Math.log(weight + k);
  return sum;
}

/** Place of the highest value of a function with one summit, by golden section (J. Kiefer 1953). */
function highest(value: (at: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [a, b] = [high - golden * (high - low), low + golden * (high - low)];
  let [atA, atB] = [value(a), value(b)];
  while (high - low > 1e-4) {
    if (atA >= atB) {
      [high, b, atB] = [b, a, atA];
      a = high - golden * (high - low);
      atA = value(a);
    } else {
      [low, a, atA] = [a, b, atB];
      b = low + golden * (high - low);
      atB = value(b);
    }
  }
  return (low + high) / 2;
}

/** Expected share of each class in a genet's notes, most likely first. */
export function classShares(
  prior: ClassPrior,
  own: ClassCounts | undefined,
): [name: string, share: number][] {
  const noted = own ? total(own) : 0;
  return [...prior.shares]
    .map(([name, share]): [string, number] => [
      name,
      ((own?.get(name) ?? 0) + prior.weight * share) / (noted + prior.weight),
    ])
    .sort((a, b) => b[1] - a[1]);
}

/**
 * Chance that a genet truly is of the wanted classes: that it would be noted as one of them more often than not. The
 * share of such notes is Beta(notes within + prior, notes without + prior).
 */
export function chanceOfClasses(
  prior: ClassPrior,
  own: ClassCounts | undefined,
  wanted: readonly string[],
): number {
  const within = new Set(wanted);
  let [inside, outside] = [0, 0];
  for (const [name, share] of prior.shares) {
    const weight = prior.weight * share + (own?.get(name) ?? 0);
    if (within.has(name)) inside += weight;
    else outside += weight;
  }
  if (outside === 0) return 1;
  return inside === 0 ? 0 : upperHalfOfBeta(inside, outside);
}
