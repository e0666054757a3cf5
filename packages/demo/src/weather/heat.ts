import { type Day, dayOf } from '../calendar.ts';
import type { DailyWeather } from './daily.ts';

/** How the simulated plants feel warmth: degree-days above `base`, no more than at `most`, from 1 January on. */
export const heatRule = { base: 4.5, most: 26, from: '01-01' } as const;

const limits: { readonly base: number; readonly most: number } = heatRule;

const hours = 12;
const wave = Array.from({ length: hours }, (_, k) => Math.sin((2 * Math.PI * (k + 0.5)) / hours));

/** Degree-days of one day: twelve two-hourly temperatures on a sine between the lowest and the highest. */
export function heatOfDay(lowest: number, highest: number, { base, most } = limits): number {
  const middle = (lowest + highest) / 2;
  const half = (highest - lowest) / 2;
  let sum = 0;
  for (const height of wave) {
    sum += Math.max(0, Math.min(most, middle + half * height) - base);
  }
  return sum / hours;
}

/** Warmth gathered at a site within one year, up to the end of each day from 1 January on. */
export interface YearOfHeat {
  readonly newYear: Day;
  readonly upTo: Float64Array;
}

export function heatOfYear(weather: DailyWeather, year: number): YearOfHeat {
  const newYear = dayOf(year, 1, 1);
  const days = Math.max(0, Math.min(dayOf(year + 1, 1, 1), weather.first + weather.lowest.length) - newYear);
  const upTo = new Float64Array(days);
  let sum = 0;
  for (let i = 0; i < days; i++) {
    const at = newYear + i - weather.first;
    sum += at < 0 ? 0 : heatOfDay(weather.lowest[at]!, weather.highest[at]!);
    upTo[i] = sum;
  }
  return { newYear, upTo };
}

/** The day on which the gathered warmth reaches `need`, in degree-days; null where the year's known days do not. */
export function dayReached({ newYear, upTo }: YearOfHeat, need: number): Day | null {
  let [low, high] = [0, upTo.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (upTo[middle]! < need) low = middle + 1;
    else high = middle;
  }
  return low < upTo.length ? newYear + low : null;
}
