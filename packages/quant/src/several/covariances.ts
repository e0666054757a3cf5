import { ModelError } from '../mixed/model-error.ts';
import type { Layout } from './layout.ts';
import { invertSmall, type SmallInverse, submatrix } from './small-matrix.ts';

/** Units that share a set of traits: the levels of a term, or the occasions with the same traits noted. */
interface Group {
  /** Places of its traits among those of the component. */
  readonly traits: readonly number[];
  readonly count: number;
}

/** A random term or the residual: what has a covariance matrix among traits. */
export interface Component {
  readonly name: string;
  /** Its traits, ascending. */
  readonly traits: readonly number[];
  readonly groups: readonly Group[];
}

/** One element of a covariance matrix: traits a ≤ b of a component, by their places there. */
export interface Element {
  readonly component: number;
  readonly a: number;
  readonly b: number;
}

/** The components of a layout, the residual last. */
export function componentsOf(layout: Layout): Component[] {
  const terms = layout.terms.map(({ name, traits, size }) => ({
    name,
    traits,
    groups: [{ traits: traits.map((_, a) => a), count: size }],
  }));
  const { patterns, counts } = layout.occasions;
  const traits = layout.names.map((_, t) => t);
  const groups = patterns.map((pattern, p) => ({ traits: pattern, count: counts[p]! }));
  return [...terms, { name: 'residual', traits, groups }];
}

/** Inverses of a component's covariance matrix within each of its groups; null where one is not positive definite. */
export function groupInverses(component: Component, matrix: Float64Array): SmallInverse[] | null {
  const inverses: SmallInverse[] = [];
  for (const { traits } of component.groups) {
    const inverse = invertSmall(submatrix(matrix, component.traits.length, traits), traits.length);
    if (!inverse) return null;
    inverses.push(inverse);
  }
  return inverses;
}

/** Covariance matrices by term, `residual` among them; each traits × traits row by row. */
export type Covariances = ReadonlyMap<string, Float64Array>;

/**
 * The matrices of the components on the scale of the layout, from covariances in the units of the responses.
 *
 * @throws ModelError where one is missing or not positive definite among the traits that have the term
 */
export function scaledMatrices(
  layout: Layout,
  components: readonly Component[],
  covariances: Covariances,
): Float64Array[] {
  const all = layout.names.length;
  return components.map(({ name, traits }) => {
    const given = covariances.get(name);
    if (!given || given.length !== all * all) {
      throw new ModelError(
        `"${name}" has no covariance matrix of ${all} × ${all} traits`,
        'Give one for every random term and for "residual"',
      );
    }
    const scaled = given.map(
      (value, e) => value / (layout.scales[Math.floor(e / all)]! * layout.scales[e % all]!),
    );
    const matrix = submatrix(scaled, all, traits);
    if (invertSmall(matrix, traits.length)) return matrix;
    throw new ModelError(
      `the covariance matrix of "${name}" is not positive definite among ${traits.map((t) => `"${layout.names[t]}"`).join(', ')}`,
      'Bend it first, or leave the term out of a trait in which its variance is 0',
    );
  });
}
