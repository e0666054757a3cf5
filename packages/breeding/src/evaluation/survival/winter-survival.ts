import { convert, shownUnit } from '../../facts/index.ts';
import { count, counted } from '../choosing/terms/classes.ts';
import { halfOf80 } from '../half-of-80.ts';
import { fitLogit, type LogitFit, type Outcomes } from './logit-by-group.ts';
import { chanceOf, type WinterChance } from './winter-chance.ts';
import { type WinterCurve, winterCurves } from './winter-curves.ts';

/** One plant through one winter. */
export interface PlantWinter {
  readonly plant: string;
  readonly genet: string;
  /** Taxon and provenance, or how it was raised. */
  readonly origin: string | null;
  /** Year of the winter's spring. */
  readonly winter: number;
  /** Lowest temperature of the winter at its site, °C; null where it is not known. */
  readonly minimum: number | null;
  /** Its first winter since it was planted. */
  readonly first: boolean;
  readonly survived: boolean;
}

/** How standing plants come through winters. */
export interface WinterSurvival {
  readonly plantWinters: number;
  readonly lost: number;
  readonly winters: readonly {
    readonly winter: number;
    readonly minimum: number | null;
    readonly stood: number;
    readonly lost: number;
    /** Of these, plants in their first winter. */
    readonly first: { readonly stood: number; readonly lost: number };
  }[];
  /** What was taken into account and what could not be told, in full sentences. */
  readonly words: readonly string[];
  /** The lowest temperature that chances are for, °C: the mean of the winters'; null where minima are not used. */
  readonly at: number | null;
  /** How many times the odds of loss rise with each degree colder; null where it can't be told. */
  readonly oddsPerDegree: { readonly value: number; readonly low: number; readonly high: number } | null;
  /** Plants of all origins first, then each origin; none where minima are not used. */
  readonly curves: readonly WinterCurve[];
  readonly origins: readonly (WinterChance & {
    readonly origin: string;
    readonly stood: number;
    readonly lost: number;
  })[];
  /** Whether genets of one origin differ beyond chance. */
  readonly genetsDiffer: boolean;
  readonly genets: readonly (WinterChance & {
    readonly id: string;
    readonly origin: string;
    readonly stood: number;
    readonly lost: number;
  })[];
}

const fewestPlantWinters = 20;
const fewestLost = 5;
const fewestWinters = 3;
const fewestOfOrigin = 10;
const otherOrigins = 'other origins';
/** Prior of an origin's and of five degrees' log-odds: normal with this deviation (after Gelman and others 2008, Annals of Applied Statistics 2:1360-1383). */
const priorSpread = 2.5;
const degrees = 5;

const firstWinterWords =
  'The first winter after planting was taken into account; chances are for later ones.';

/**
 * Survival of standing plants by the winter's minimum and by origin, with an effect of each genet: logistic regression with
 * normal effects (logit-by-group.ts). Chances are for the mean winter; their ranges join the errors of coefficients and of
 * the genet as if independent.
 *
 * @param units what the words speak; all numbers are in °C
 */
export function winterSurvival(
  rows: readonly PlantWinter[],
  units: 'metric' | 'us' = 'metric',
): WinterSurvival {
  const lost = rows.filter(({ survived }) => !survived).length;
  const base = { plantWinters: rows.length, lost, winters: wintersOf(rows) };
  if (rows.length < fewestPlantWinters || lost < fewestLost) {
    const words = `${count(rows.length, 'plant stood', 'plants stood')} through a winter as far as is recorded (each counted once a winter), and ${count(lost, 'was', 'were')} lost: too few to say what winters do.`;
    const untold = {
      at: null,
      oddsPerDegree: null,
      curves: [],
      origins: [],
      genetsDiffer: false,
      genets: [],
    };
    return { ...base, words: [words], ...untold };
  }
  const cold = coldOf(rows, base.winters, units);
  const origin = originsOf(rows);
  const names = [...new Set(origin.of)].sort();
  const youngs = rows.filter(({ first }) => first).length;
  const young = Math.min(youngs, rows.length - youngs) >= fewestOfOrigin;
  const later = { minimum: null, first: false };
  // Origins beyond the first are measured against it.
  const columnsOf = ({ minimum, first }: Pick<PlantWinter, 'minimum' | 'first'>, own: string) => [
    1,
    ...(cold.at === null ? [] : [((minimum ?? cold.at) - cold.at) / degrees]),
    ...(young ? [first ? 1 : 0] : []),
    ...names.slice(1).map((name) => (name === own ? 1 : 0)),
  ];
  const byGenet = new Map<string, number[]>();
  for (const [index, { genet }] of rows.entries()) {
    const list = byGenet.get(genet);
    if (list) list.push(index);
    else byGenet.set(genet, [index]);
  }
  const groups = [...byGenet.values()].map(
    (own): Outcomes => ({
      happened: Uint8Array.from(own, (index) => (rows[index]!.survived ? 1 : 0)),
      columns: Float64Array.from(own.flatMap((index) => columnsOf(rows[index]!, origin.of[index]!))),
    }),
  );
  const width = columnsOf(later, names[0]!).length;
  const fit = fitLogit(
    groups,
    Float64Array.from({ length: width }, (_, c) => (c === 0 ? 0 : 1 / priorSpread ** 2)),
  );
  const standing = (own: readonly number[]) => stoodAndLost(own.map((index) => rows[index]!));
  const slope =
    cold.at === null ? null : { value: fit.coefficients[1]!, se: Math.sqrt(fit.covariance[width + 1]!) };
  return {
    ...base,
    words: [...cold.words, ...(young ? [firstWinterWords] : []), ...origin.words, ...wordsOf(fit)],
    at: cold.at,
    // Colder is lower, and loss the other side of survival: both turn the sign.
    oddsPerDegree: slope && {
      value: Math.exp(slope.value / degrees),
      low: Math.exp((slope.value - halfOf80 * slope.se) / degrees),
      high: Math.exp((slope.value + halfOf80 * slope.se) / degrees),
    },
    curves:
      cold.at === null
        ? []
        : winterCurves(
            fit,
            rows.map(({ first }, index) => ({ first, origin: origin.of[index]! })),
            young,
            [...new Set(rows.flatMap(({ minimum }) => minimum ?? []))],
            ({ origin: own, ...plants }) => columnsOf(plants, own),
          ),
    origins: names.map((name) => {
      const own = [...rows.keys()].filter((index) => origin.of[index] === name);
      return {
        origin: name,
        ...standing(own),
        ...chanceOf(fit, columnsOf(later, name), 0, 0),
      };
    }),
    genetsDiffer: fit.spread > 0,
    genets: [...byGenet].map(([id, own], g) => ({
      id,
      origin: origin.of[own[0]!]!,
      ...standing(own),
      ...(fit.spread > 0
        ? chanceOf(fit, columnsOf(later, origin.of[own[0]!]!), fit.modes[g]!, fit.modeErrors[g]!)
        : chanceOf(fit, columnsOf(later, origin.of[own[0]!]!), 0, 0)),
    })),
  };
}

const stoodAndLost = (rows: readonly PlantWinter[]): { stood: number; lost: number } => ({
  stood: rows.length,
  lost: rows.filter(({ survived }) => !survived).length,
});

function wintersOf(rows: readonly PlantWinter[]): WinterSurvival['winters'] {
  return [...new Set(rows.map(({ winter }) => winter))]
    .sort((a, b) => a - b)
    .map((winter) => {
      const own = rows.filter((row) => row.winter === winter);
      const known = own.flatMap(({ minimum }) => minimum ?? []);
      return {
        winter,
        minimum: known.length > 0 ? Math.min(...known) : null,
        ...stoodAndLost(own),
        first: stoodAndLost(own.filter(({ first }) => first)),
      };
    });
}

/** The minimum to give chances for, where enough winters have one. */
function coldOf(
  rows: readonly PlantWinter[],
  winters: WinterSurvival['winters'],
  units: 'metric' | 'us',
): { at: number | null; words: string[] } {
  const known = rows.flatMap(({ minimum }) => minimum ?? []);
  const different = new Set(known).size;
  const withMinimum = winters.filter(({ minimum }) => minimum !== null).length;
  if (different < fewestWinters || withMinimum < fewestWinters) {
    return {
      at: null,
      words: [
        `The lowest temperature is known of ${count(withMinimum, 'winter', 'winters')} only, so what cold does cannot be told. Weather records of the other winters would tell.`,
      ],
    };
  }
  const at = known.reduce((sum, minimum) => sum + minimum, 0) / known.length;
  const unknown = rows.length - known.length;
  return {
    at,
    words: [
      `The lowest temperature of each winter was taken into account; chances are for ${coldInWords(at, units)}, the mean${unknown > 0 ? ` (taken too for ${count(unknown, 'plant', 'plants')} in winters without weather records)` : ''}.`,
    ],
  };
}

function coldInWords(celsius: number, units: 'metric' | 'us'): string {
  const unit = shownUnit('°C', units);
  return `${convert(celsius, '°C', unit).toFixed(1).replace('-', '−')} ${unit}`;
}

/** The origin of each row; those with few plants are taken together. */
function originsOf(rows: readonly PlantWinter[]): { of: string[]; words: string[] } {
  const named = rows.map(({ origin }) => origin ?? 'origin not known');
  const counts = counted(named);
  const of = named.map((name) => (counts.get(name)! >= fewestOfOrigin ? name : otherOrigins));
  const few = [...counts.values()].filter((number) => number < fewestOfOrigin).length;
  if (new Set(of).size < 2)
    return {
      of,
      words: ['All plants are of one origin, or too few of any other, so origins cannot be compared.'],
    };
  return {
    of,
    words: [
      `Origin was taken into account (${new Set(of).size} of them${few > 0 ? `; ${few} with fewer than ${fewestOfOrigin} plants in winter taken together` : ''}).`,
    ],
  };
}

function wordsOf(fit: LogitFit): string[] {
  if (!fit.converged) return ['The sums did not settle; take these figures as rough.'];
  return fit.spread === 0
    ? ['Genets of one origin do not differ beyond chance in coming through winters.']
    : [];
}
