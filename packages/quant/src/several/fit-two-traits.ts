import { type Design, readDesign, withoutTerms } from '../mixed/design.ts';
import { fitTable } from '../mixed/fit-table.ts';
import { readHeld } from '../mixed/held.ts';
import type { FitControl } from '../mixed/model.ts';
import { ModelError } from '../mixed/model-error.ts';
import { type Component, componentsOf } from './covariances.ts';
import { type Layout, layOut, ofTrait } from './layout.ts';
import { asModelError } from './solve-several.ts';
import type { SeveralControl, TraitTable } from './trait-table.ts';
import type { TwoTraitFit } from './two-trait-fit.ts';
import { atBound, parametersOf, valuesAt } from './two-trait-parameters.ts';
import { twoTraitResult } from './two-trait-result.ts';
import { searchTwoTraits, type TwoTraitSummit } from './two-trait-search.ts';
import { untoldCorrelation } from './untold-correlation.ts';

/** A variance starts with at least this share of the variance that the fixed terms leave. */
const LEAST_SHARE = 0.01;

/** Which covariances two traits shall have. */
export interface TwoTraitControl extends SeveralControl {
  /** Terms (`residual` among them) in which the traits are taken as independent. */
  readonly apart?: readonly string[];
}

/**
 * Variances and covariances of two traits by restricted maximum likelihood, from those of each trait alone.
 *
 * A variance that ends at its bound is 0, and its term is left out of the trait. Covariances that no row can tell (of a
 * term with hardly a level in both traits; of residuals without common occasions) are held at 0 and said.
 *
 * @throws ModelError for tables or models that cannot be fitted, naming the trait; FitCancelledError when stopped
 */
export function fitTwoTraits(
  first: TraitTable,
  second: TraitTable,
  control: TwoTraitControl = {},
): TwoTraitFit {
  const traits = [first, second] as const;
  const known = traits.map((trait) => alone(trait, control));
  let designs = known.map(({ design }) => design);
  const whole = designs;
  let iterations = 0;
  let apartLogLikelihood: number | null = null;
  for (;;) {
    designs = designs.map((design, t) => withoutZeros(design, known[t]!.variances));
    const layout = layOut(traits, designs);
    try {
      const components = componentsOf(layout);
      const untold = components.map((component, c) => remarkOn(layout, component, c, control.apart ?? []));
      const parameters = parametersOf(components, (component, of) =>
        of === null
          ? untold[components.indexOf(component)] !== null
          : known[component.traits[of]!]!.held.has(component.name),
      );
      const start = valuesAt(components, parameters, startMatrices(layout, components, known));
      const summit = required(searchTwoTraits(layout, components, parameters, start, iterations, control));
      apartLogLikelihood ??= summit.startLogLikelihood;
      const fallen = parameters.flatMap((parameter, i) =>
        parameter.of !== null && !parameter.held && atBound(components, parameters, summit.values, i)
          ? [parameter]
          : [],
      );
      if (fallen.length === 0) {
        return twoTraitResult({ layout, whole, components, parameters, untold, summit, apartLogLikelihood });
      }
      keep(known, layout, components, parameters, summit);
      for (const { component, of } of fallen) {
        const { name, traits: own } = components[component]!;
        known[own[of!]!]!.variances.set(name, 0);
      }
      iterations = summit.iterations;
    } catch (error) {
      throw asModelError(error, layout);
    }
  }
}

/** What is known of a trait before it is joined with another. */
interface Alone {
  readonly design: Design;
  readonly held: ReadonlyMap<string, number>;
  readonly variances: Map<string, number>;
}

function alone(trait: TraitTable, { onProgress, ...control }: FitControl): Alone {
  try {
    const design = readDesign(trait.table, trait.model);
    const fitted =
      trait.variances ??
      Object.fromEntries(
        fitTable(trait.table, trait.model, control).variances.map(({ term, estimate }) => [term, estimate]),
      );
    for (const name of [...design.terms.map((term) => term.name), 'residual']) {
      if (fitted[name] !== undefined) continue;
      throw new ModelError(`no variance of "${name}" is given`, 'Give all variances of the trait or none');
    }
    // Beside the other trait a variance may differ from 0 that is 0 alone, so the search tries it once more.
    const held = readHeld(design, trait.model.held);
    return {
      design,
      held,
      variances: new Map(
        Object.entries({ ...fitted, ...trait.model.held }).map(([name, value]) => {
          const started = held.has(name)
            ? value
            : Math.max(value, LEAST_SHARE * design.leastSquares.variance);
          return [name, started];
        }),
      ),
    };
  } catch (error) {
    throw error instanceof ModelError ? ofTrait(trait.name, error) : error;
  }
}

function withoutZeros(design: Design, variances: ReadonlyMap<string, number>): Design {
  const none = design.terms.filter(({ name }) => variances.get(name) === 0);
  return none.length === 0 ? design : withoutTerms(design, new Set(none.map(({ name }) => name)));
}

function remarkOn(layout: Layout, component: Component, c: number, apart: readonly string[]): string | null {
  if (component.traits.length < 2) return null;
  if (apart.includes(component.name)) return 'held at 0 as asked';
  return untoldCorrelation(layout, c);
}

/** Matrices of the variances known so far, on the scale of the layout, without covariances. */
function startMatrices(
  layout: Layout,
  components: readonly Component[],
  known: readonly Alone[],
): Float64Array[] {
  return components.map(({ name, traits }) => {
    const matrix = new Float64Array(traits.length ** 2);
    traits.forEach((t, a) => {
      matrix[a * traits.length + a] = known[t]!.variances.get(name)! / layout.scales[t]! ** 2;
    });
    return matrix;
  });
}

/** Takes the variances that a search found as those to start from. */
function keep(
  known: readonly Alone[],
  layout: Layout,
  components: readonly Component[],
  parameters: ReturnType<typeof parametersOf>,
  { values }: TwoTraitSummit,
): void {
  parameters.forEach(({ component, of }, i) => {
    if (of === null) return;
    const { name, traits } = components[component]!;
    known[traits[of]!]!.variances.set(name, values[i]! * layout.scales[traits[of]!]! ** 2);
  });
}

function required(summit: TwoTraitSummit | null): TwoTraitSummit {
  if (summit) return summit;
  throw new ModelError(
    'the variances of the two traits are so far apart that their equations cannot be solved',
    'Look whether held variances are in the squared units of the responses',
  );
}
