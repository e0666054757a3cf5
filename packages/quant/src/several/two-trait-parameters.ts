import type { Component } from './covariances.ts';
import type { JointDerivatives } from './joint-derivatives.ts';

/** Correlations are taken no nearer to 1 or -1 than this. */
const MOST_CORRELATION = 1 - 1e-4;
/** Least share of a trait's residual variance that a variance of it is taken to during the search. */
const FLOOR = 1e-6;
/** A variance that ends within this many times its floor is 0. */
const NEAR_FLOOR = 10;
/** Least share of itself that one step leaves of a variance, and by its inverse the most that it grows. */
const MOST_SHRINKING = 0.05;

/** What is searched for: the variances of each component, and the correlation where it has both traits. */
export interface Parameter {
  readonly component: number;
  /** Place in the component of the trait whose variance it is; null for the correlation. */
  readonly of: number | null;
  readonly held: boolean;
}

/** Slopes and information in the parameters. */
export interface ParameterSlopes {
  readonly score: Float64Array;
  readonly information: Float64Array;
  readonly traces: Float64Array;
}

/** The parameters of the components in order: variances, then correlation. */
export function parametersOf(
  components: readonly Component[],
  isHeld: (component: Component, of: number | null) => boolean,
): Parameter[] {
  return components.flatMap((component, c) => {
    const variances = component.traits.map((_, of) => ({ component: c, of, held: isHeld(component, of) }));
    if (component.traits.length < 2) return variances;
    return [...variances, { component: c, of: null, held: isHeld(component, null) }];
  });
}

/** The covariance matrices of the components at given values of the parameters. */
export function matricesAt(
  components: readonly Component[],
  parameters: readonly Parameter[],
  values: Float64Array,
): Float64Array[] {
  const matrices = components.map(({ traits }) => new Float64Array(traits.length ** 2));
  parameters.forEach(({ component, of }, i) => {
    const matrix = matrices[component]!;
    if (of === null) {
      matrix[1] = values[i]! * Math.sqrt(matrix[0]! * matrix[3]!);
      matrix[2] = matrix[1]!;
    } else {
      matrix[of * components[component]!.traits.length + of] = values[i]!;
    }
  });
  return matrices;
}

/** The values of the parameters at given matrices; correlations are brought within their bounds. */
export function valuesAt(
  components: readonly Component[],
  parameters: readonly Parameter[],
  matrices: readonly Float64Array[],
): Float64Array {
  return Float64Array.from(parameters, ({ component, of }) => {
    const matrix = matrices[component]!;
    if (of !== null) return matrix[of * components[component]!.traits.length + of]!;
    const scale = Math.sqrt(matrix[0]! * matrix[3]!);
    const correlation = scale > 0 ? matrix[1]! / scale : 0;
    return Math.min(MOST_CORRELATION, Math.max(-MOST_CORRELATION, correlation));
  });
}

/** Slopes in the elements turned into slopes in the parameters, by the chain rule on c = ρ √(v w). */
export function parameterSlopes(
  parameters: readonly Parameter[],
  matrices: readonly Float64Array[],
  { elements, score, information, traces }: JointDerivatives,
): ParameterSlopes {
  const slopes = parameters.map(({ component, of }) =>
    elements.map((element) => {
      if (element.component !== component) return 0;
      const matrix = matrices[component]!;
      const mixed = element.a !== element.b;
      if (of === null) return mixed ? Math.sqrt(matrix[0]! * matrix[3]!) : 0;
      if (!mixed) return element.a === of ? 1 : 0;
      return (0.5 * matrix[1]!) / matrix[of * 2 + of]!;
    }),
  );
  const n = elements.length;
  const along = (vector: Float64Array) =>
    Float64Array.from(slopes, (slope) => slope.reduce((sum, x, k) => sum + x * vector[k]!, 0));
  const turned = slopes.map((slope) =>
    elements.map((_, k) => slope.reduce((sum, x, i) => sum + x * information[i * n + k]!, 0)),
  );
  const curved = turned.flatMap((line) =>
    slopes.map((slope) => slope.reduce((sum, x, k) => sum + x * line[k]!, 0)),
  );
  return { score: along(score), traces: along(traces), information: Float64Array.from(curved) };
}

/** The ranges within which one step keeps the parameters. */
export function rangesAt(
  components: readonly Component[],
  parameters: readonly Parameter[],
  values: Float64Array,
): { low: Float64Array; high: Float64Array } {
  const low = new Float64Array(values.length).fill(-MOST_CORRELATION);
  const high = new Float64Array(values.length).fill(MOST_CORRELATION);
  parameters.forEach(({ component, of }, i) => {
    if (of === null) return;
    const least = component === components.length - 1 ? 0 : floorOf(components, parameters, values, i);
    low[i] = Math.max(least, MOST_SHRINKING * values[i]!);
    high[i] = values[i]! / MOST_SHRINKING;
  });
  return { low, high };
}

/** Whether a parameter stands at a bound of its own: a variance at its floor, a correlation at ±1. */
export function atBound(
  components: readonly Component[],
  parameters: readonly Parameter[],
  values: Float64Array,
  i: number,
): boolean {
  const { component, of } = parameters[i]!;
  if (of === null) return Math.abs(values[i]!) >= MOST_CORRELATION;
  if (component === components.length - 1) return false;
  return values[i]! <= NEAR_FLOOR * floorOf(components, parameters, values, i);
}

/** The least that the variance numbered i is taken to. */
function floorOf(
  components: readonly Component[],
  parameters: readonly Parameter[],
  values: Float64Array,
  i: number,
): number {
  const { component, of } = parameters[i]!;
  const trait = components[component]!.traits[of!]!;
  // The residual has all traits, in their order.
  const last = components.length - 1;
  const residual = parameters.findIndex((other) => other.component === last && other.of === trait);
  return FLOOR * values[residual]!;
}
