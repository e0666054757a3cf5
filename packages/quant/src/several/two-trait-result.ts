import type { Design } from '../mixed/design.ts';
import { inverseAmong } from '../mixed/small-systems.ts';
import { boundWarning, designWarnings, SINGULAR_WARNING, unconvergedWarning } from '../mixed/warnings.ts';
import type { Component } from './covariances.ts';
import type { Layout } from './layout.ts';
import {
  correlationError,
  type TwoTraitErrors,
  type TwoTraitEstimate,
  type TwoTraitFit,
  type TwoTraitTerm,
} from './two-trait-fit.ts';
import { atBound, matricesAt, type Parameter } from './two-trait-parameters.ts';
import { movingParameters, type TwoTraitSummit } from './two-trait-search.ts';

/** All that a result is put together from. */
export interface TwoTraitFound {
  readonly layout: Layout;
  /** The designs before terms at their bound were left out. */
  readonly whole: readonly Design[];
  readonly components: readonly Component[];
  readonly parameters: readonly Parameter[];
  /** Why the correlation of each component was held; null where it was not. */
  readonly untold: readonly (string | null)[];
  readonly summit: TwoTraitSummit;
  readonly apartLogLikelihood: number;
}

/** The result of a two-trait fit, in the units of the responses. */
export function twoTraitResult(found: TwoTraitFound): TwoTraitFit {
  const { layout, whole, summit, apartLogLikelihood } = found;
  const { errors, singular } = errorsOf(found);
  const names = [
    ...new Set([...whole.flatMap((design) => design.terms.map(({ name }) => name)), 'residual']),
  ];
  const terms = names.map((name) => listed(found, name, errors));
  const warnings = whole.flatMap((design, t) =>
    [
      ...designWarnings(design),
      ...design.terms
        .filter(({ name }) => !layout.designs[t]!.terms.some((term) => term.name === name))
        .map(({ name }) => boundWarning(name)),
    ].map((warning) => `${layout.names[t]}: ${warning}`),
  );
  for (const { term, remark } of terms) {
    if (remark !== null) warnings.push(`The correlation of "${term}" is ${remark}.`);
  }
  if (!summit.converged) warnings.push(unconvergedWarning(summit.iterations));
  if (singular) warnings.push(SINGULAR_WARNING);
  const [first, second] = layout.names;
  return {
    traits: [first!, second!],
    converged: summit.converged,
    iterations: summit.iterations,
    remlLogLikelihood: summit.joint.logLikelihood,
    apartLogLikelihood,
    terms,
    warnings,
    errors,
  };
}

/** Error covariances of variances and covariances on the scale of the layout, by the delta method from the parameters. */
function errorsOf(found: TwoTraitFound): { errors: TwoTraitErrors | null; singular: boolean } {
  const { components, parameters, summit } = found;
  const free = movingParameters(parameters, summit.slopes).filter(
    (i) => !atBound(components, parameters, summit.values, i),
  );
  if (free.length === 0) return { errors: null, singular: false };
  const own = inverseAmong(summit.slopes.information, parameters.length, free);
  if (!own) return { errors: null, singular: true };
  const matrices = matricesAt(components, parameters, summit.values);
  // Elements of the matrices: those of free parameters, and covariances that move with free variances.
  const elements = parameters.flatMap(({ component, of }, i) => {
    const name = components[component]!.name;
    const trait = of === null ? ('covariance' as const) : (components[component]!.traits[of] as 0 | 1);
    const moves = free.some((k) => k === i || (of === null && parameters[k]!.component === component));
    return moves ? [{ term: name, of: trait, component, parameter: i }] : [];
  });
  const slopes = elements.map(({ component, of, parameter }) =>
    free.map((k) => {
      if (k === parameter && of !== 'covariance') return 1;
      if (of !== 'covariance' || parameters[k]!.component !== component) return 0;
      const [v, c, , w] = matrices[component]!;
      const moved = parameters[k]!.of;
      if (moved === null) return Math.sqrt(v! * w!);
      return (0.5 * c!) / (moved === 0 ? v! : w!);
    }),
  );
  const n = free.length;
  const matrix = slopes.flatMap((a) =>
    slopes.map((b) =>
      a.reduce((sum, x, i) => sum + x * b.reduce((inner, z, k) => inner + z * own[i * n + k]!, 0), 0),
    ),
  );
  const unit = elements.map(({ of }) => unitOf(found.layout, of));
  const named = elements.map(({ term, of }) => ({ term, of }));
  const inUnits = matrix.map(
    (value, e) => value * unit[Math.floor(e / unit.length)]! * unit[e % unit.length]!,
  );
  return { errors: { parameters: named, matrix: Float64Array.from(inUnits) }, singular: false };
}

/** What an element of a matrix on the scale of the layout is multiplied by to be in the units of the responses. */
function unitOf({ scales }: Layout, of: 0 | 1 | 'covariance'): number {
  return of === 'covariance' ? scales[0]! * scales[1]! : scales[of]! ** 2;
}

/** One term of the result. */
function listed(found: TwoTraitFound, name: string, errors: TwoTraitErrors | null): TwoTraitTerm {
  const { layout, whole, components, parameters, summit, untold } = found;
  const c = components.findIndex((component) => component.name === name);
  const component = components[c];
  const matrix = component && matricesAt(components, parameters, summit.values)[c]!;
  const estimate = (of: 0 | 1 | 'covariance', value: number): TwoTraitEstimate => {
    const at = errors?.parameters.findIndex((other) => other.term === name && other.of === of) ?? -1;
    const se = at < 0 ? null : Math.sqrt(errors!.matrix[at * (errors!.parameters.length + 1)]!);
    return { value: value * unitOf(layout, of), se };
  };
  const variance = (t: 0 | 1): TwoTraitEstimate | null => {
    const a = component?.traits.indexOf(t) ?? -1;
    if (a >= 0) return estimate(t, matrix![a * component!.traits.length + a]!);
    return whole[t]!.terms.some((term) => term.name === name) ? { value: 0, se: null } : null;
  };
  const variances = [variance(0), variance(1)] as const;
  if (component?.traits.length !== 2) {
    return { term: name, variances, covariance: { value: 0, se: null }, correlation: null, remark: null };
  }
  const r = parameters.findIndex((parameter) => parameter.component === c && parameter.of === null);
  const value = summit.values[r]!;
  if (untold[c] !== null) {
    const none = { value: 0, se: null };
    return { term: name, variances, covariance: none, correlation: none, remark: untold[c]! };
  }
  const covariance = estimate('covariance', matrix![1]!);
  if (atBound(components, parameters, summit.values, r)) {
    const side = Math.sign(value);
    const remark = `at its bound: it is taken as ${side}`;
    return { term: name, variances, covariance, correlation: { value: side, se: null }, remark };
  }
  const told = movingParameters(parameters, summit.slopes).includes(r);
  const remark = told ? null : 'held at 0: the rows do not tell it';
  const slope =
    errors && told
      ? correlationError(errors, [name], [variances[0]!.value, variances[1]!.value], covariance.value)
      : null;
  return { term: name, variances, covariance, correlation: { value, se: slope }, remark };
}
