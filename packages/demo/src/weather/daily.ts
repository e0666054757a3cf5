import type { Random } from '@keelrow/quant';
import type { Day } from '../calendar.ts';

/** Invented daily weather of one site; index 0 is `first`. Temperatures in °C, rain in mm. */
export interface DailyWeather {
  readonly first: Day;
  readonly lowest: Float64Array;
  readonly highest: Float64Array;
  readonly rain: Float64Array;
}

/** The climate from which days are drawn: mild wet winters, dry warm summers. All figures are invented. */
const climate = {
  yearMean: 11.3,
  swing: 8,
  coldestDayOfYear: 16,
  monthSd: 0.8,
  springSd: 0.75,
  dayCarry: 0.72,
  daySd: 1.9,
};

const turn = (day: Day, peak: number): number =>
  Math.cos((2 * Math.PI * (((day - peak) % 365.25) + 365.25)) / 365.25);

/**
 * Draws the weather of consecutive days: a yearly wave; departures of months that fade into one another; a departure
 * of each whole spring, which moves bloom by one to two weeks; day-to-day swings that carry over; cold spells.
 */
export function drawWeather(random: Random, first: Day, days: number): DailyWeather {
  const weather = {
    first,
    lowest: new Float64Array(days),
    highest: new Float64Array(days),
    rain: new Float64Array(days),
  };
  const months = Array.from({ length: Math.ceil(days / 30.4) + 2 }, () => random.normal(0, climate.monthSd));
  const springs = Array.from({ length: Math.ceil(days / 365.25) + 2 }, () =>
    random.normal(0, climate.springSd),
  );
  const coldUntil = coldSpells(random.fork('cold spells'), first, days);
  let carried = 0;
  let wet = false;
  for (let i = 0; i < days; i++) {
    const day = first + i;
    const month = i / 30.4;
    const between = month - Math.floor(month);
    const monthly = months[Math.floor(month)]! * (1 - between) + months[Math.floor(month) + 1]! * between;
    // 1970-01-01 began a year, so this is the place of the day within its year, near enough for a wave.
    const ofYear = ((day % 365.25) + 365.25) % 365.25;
    const spring = ofYear > 31 && ofYear < 151 ? Math.sin((Math.PI * (ofYear - 31)) / 120) : 0;
    const sinceStart = Math.floor((day - first) / 365.25 + 0.5);
    carried = climate.dayCarry * carried + random.normal(0, climate.daySd);
    const summerness = -turn(day, climate.coldestDayOfYear);
    wet = random.uniform() < (wet ? 0.62 : 0.26) - 0.2 * summerness;
    const mean =
      climate.yearMean +
      climate.swing * summerness +
      monthly +
      spring * springs[sinceStart]! +
      carried -
      coldUntil[i]!;
    const range = Math.max(1.5, 8.6 + 3.4 * summerness - (wet ? 3 : 0) + random.normal(0, 1.8));
    weather.lowest[i] = round(mean - range * 0.52);
    weather.highest[i] = round(mean + range * 0.48);
    weather.rain[i] = wet ? round(random.gamma(0.9, 6.5 - 2 * summerness)) : 0;
  }
  return weather;
}

const round = (value: number): number => Math.round(value * 10) / 10;

/** By how many °C each day is colder for lying in a cold spell; spells come in winter and, shorter, in spring. */
function coldSpells(random: Random, first: Day, days: number): Float64Array {
  const colder = new Float64Array(days);
  for (let i = 0; i < days; i++) {
    const ofYear = (((first + i) % 365.25) + 365.25) % 365.25;
    const winter = ofYear < 50 || ofYear > 335;
    const spring = ofYear >= 85 && ofYear < 125;
    if (!(winter && random.uniform() < 0.018) && !(spring && random.uniform() < 0.02)) continue;
    const length = winter ? 4 + random.integer(6) : 1 + random.integer(3);
    const depth = winter ? 5 + random.gamma(2, 1.5) : 4 + random.gamma(2, 0.9);
    for (let j = i; j < Math.min(days, i + length); j++) colder[j] = Math.max(colder[j]!, depth);
  }
  return colder;
}

/** The weather of a site near by: colder by `cooler` °C, with small departures of its own. */
export function neighbouring(random: Random, weather: DailyWeather, cooler: number): DailyWeather {
  const shifted = {
    first: weather.first,
    lowest: weather.lowest.slice(),
    highest: weather.highest.slice(),
    rain: weather.rain.slice(),
  };
  for (let i = 0; i < shifted.lowest.length; i++) {
    const shift = random.normal(-cooler, 0.4);
    shifted.lowest[i] = round(shifted.lowest[i]! + shift);
    shifted.highest[i] = Math.max(
      shifted.lowest[i]! + 0.5,
      round(shifted.highest[i]! + shift + random.normal(0, 0.3)),
    );
    shifted.rain[i] = round(shifted.rain[i]! * random.gamma(20, 0.056));
  }
  return shifted;
}
