import type { Design, PlacedTerm } from '../mixed/design.ts';
import { sortLevels } from '../mixed/levels.ts';
import { ModelError } from '../mixed/model-error.ts';
import { type SparseSymmetric, sparseIdentity } from '../sparse/symmetric.ts';

/**
 * A random term over several traits: effects u with covariance G ⊗ K, G among its traits. The effects of level equation e
 * stand together, in the order of the traits: equation offset + e × traits.length + a.
 */
export interface SharedTerm {
  readonly name: string;
  /** Traits that have the term, ascending. */
  readonly traits: readonly number[];
  readonly offset: number;
  /** Level equations, and K⁻¹ and log |K| among them. */
  readonly size: number;
  readonly inverse: SparseSymmetric;
  readonly logDeterminant: number;
  /** Whether K is the identity. */
  readonly independent: boolean;
  readonly levels: readonly string[];
  /** Level equation of each level. */
  readonly equations: Int32Array;
  /** For each of its traits the level equation of each of that trait's own equations. */
  readonly places: readonly Int32Array[];
}

/**
 * Joins the random terms of the traits by name.
 *
 * @param offset first free equation
 * @throws ModelError when a term has a known covariance in one trait and none, or another, in another
 */
export function sharedTerms(designs: readonly Design[], offset: number): SharedTerm[] {
  const names = [...new Set(designs.flatMap((design) => design.terms.map((term) => term.name)))];
  let next = offset;
  return names.map((name) => {
    const found = designs.map((design) => design.terms.find((term) => term.name === name));
    const traits = found.flatMap((term, t) => (term ? [t] : []));
    const own = traits.map((t) => found[t]!);
    const term = own[0]!.independent ? independentTerm(name, own) : knownCovarianceTerm(name, own);
    const placed = { ...term, name, traits, offset: next };
    next += term.size * traits.length;
    return placed;
  });
}

type Joined = Omit<SharedTerm, 'name' | 'traits' | 'offset'>;

function independentTerm(name: string, own: readonly PlacedTerm[]): Joined {
  if (own.some((term) => !term.independent)) throw differing(name);
  const levels = sortLevels([...new Set(own.flatMap((term) => term.levels))]);
  const place = new Map(levels.map((level, i) => [level, i]));
  return {
    size: levels.length,
    inverse: sparseIdentity(levels.length),
    logDeterminant: 0,
    independent: true,
    levels,
    equations: Int32Array.from(levels.keys()),
    places: own.map((term) => Int32Array.from(term.levels, (level) => place.get(level)!)),
  };
}

function knownCovarianceTerm(name: string, own: readonly PlacedTerm[]): Joined {
  const [first] = own;
  if (own.some((term) => term.inverse !== first!.inverse)) throw differing(name);
  const { size, inverse, logDeterminant, levels, equations } = first!;
  const places = own.map(() => Int32Array.from({ length: size }, (_, e) => e));
  return { size, inverse, logDeterminant, independent: false, levels, equations, places };
}

function differing(name: string): ModelError {
  return new ModelError(
    `the random term "${name}" has another covariance between its levels in one trait than in another`,
    'Give all traits the same term, or name the terms apart',
    { column: name },
  );
}
