import type { Random } from '@keelrow/quant';
import { type Day, dayOf } from '../calendar.ts';
import type { Site } from '../scenario/sites.ts';
import { sites } from '../scenario/sites.ts';
import { type DailyWeather, drawWeather, neighbouring } from '../weather/daily.ts';
import { heatOfYear, type YearOfHeat } from '../weather/heat.ts';

/** What a year did to everything alike. */
export interface Season {
  readonly year: number;
  readonly heat: Readonly<Record<Site['code'], YearOfHeat>>;
  /** Factors on size and on numbers of spikes. */
  readonly size: number;
  readonly spikes: number;
  /** Points added to scores. */
  readonly leafSpot: number;
  readonly lodging: number;
  /** Lowest temperature of the winter before, °C. */
  readonly winterLow: number;
  /** The night that hurt young shoots, if one did: its day, and how many degrees below −2 °C. */
  readonly lateFrost: { readonly on: Day; readonly degrees: number } | null;
}

export interface Climate {
  readonly weather: Readonly<Record<Site['code'], DailyWeather>>;
  readonly seasons: ReadonlyMap<number, Season>;
}

/** Weather from 1 July before the first year to the last day wanted, and what each year's weather did. */
export function drawClimate(random: Random, startYear: number, years: number, last: Day): Climate {
  const first = dayOf(startYear - 1, 7, 1);
  // The last year is drawn to its end, since simulated plants would flower on; what lies ahead is never handed out.
  const days = dayOf(startYear + years, 1, 1) - first;
  const home = drawWeather(random.fork('weather'), first, Math.max(days, last - first + 1));
  const hill = neighbouring(random.fork('hill weather'), home, sites[1].cooler);
  const seasons = new Map<number, Season>();
  for (let year = startYear; year < startYear + years; year++) {
    const own = random.fork(`season ${year}`);
    const wetSpring = rainBetween(home, dayOf(year, 4, 1), dayOf(year, 6, 15)) / 150 - 1;
    seasons.set(year, {
      year,
      heat: { home: heatOfYear(home, year), hill: heatOfYear(hill, year) },
      size: Math.exp(0.06 * wetSpring + own.normal(0, 0.05)),
      spikes: Math.exp(own.normal(0, 0.12)),
      leafSpot: 0.8 * wetSpring + own.normal(0, 0.35),
      lodging: 0.5 * wetSpring + own.normal(0, 0.35),
      winterLow: lowest(home, dayOf(year - 1, 11, 1), dayOf(year, 3, 15)),
      lateFrost: lateFrost(home, dayOf(year, 4, 5), dayOf(year, 5, 25)),
    });
  }
  return { weather: { home, hill }, seasons };
}

const between = (weather: DailyWeather, from: Day, to: Day): [number, number] => [
  Math.max(0, from - weather.first),
  Math.min(weather.lowest.length, to - weather.first + 1),
];

const rainBetween = (weather: DailyWeather, from: Day, to: Day): number =>
  weather.rain.slice(...between(weather, from, to)).reduce((sum, rain) => sum + rain, 0);

const lowest = (weather: DailyWeather, from: Day, to: Day): number =>
  weather.lowest.slice(...between(weather, from, to)).reduce((low, each) => Math.min(low, each), 99);

function lateFrost(weather: DailyWeather, from: Day, to: Day): Season['lateFrost'] {
  const low = lowest(weather, from, to);
  if (low >= -2) return null;
  const [start] = between(weather, from, to);
  return { on: weather.first + weather.lowest.indexOf(low, start), degrees: -2 - low };
}
