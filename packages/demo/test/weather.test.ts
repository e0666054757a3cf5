import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { dayOf } from '../src/calendar.ts';
import { drawWeather, neighbouring } from '../src/weather/daily.ts';
import { dayReached, heatOfDay, heatOfYear } from '../src/weather/heat.ts';

describe('warmth of a day', () => {
  // source: single sine with horizontal cut-off, the six cases of Allen 1976 (°F, limits 50 and 88) and one published
  // pair (7 to 14 °C, limits 12 and 33: 0.47); other values from the closed form. Twelve points of the sine stand for
  // the integral, hence the tolerance.
  it.each([
    [30, 45, 50, 88, 0],
    [90, 100, 50, 88, 38],
    [55, 80, 50, 88, 17.5],
    [40, 70, 50, 88, 7.5424],
    [60, 95, 50, 88, 26.1429],
    [40, 95, 50, 88, 18.2708],
    [7, 14, 12, 33, 0.4681],
  ])('of %d to %d with limits %d and %d is near %d', (lowest, highest, base, most, expected) => {
    expect(Math.abs(heatOfDay(lowest, highest, { base, most }) - expected)).toBeLessThan(
      0.02 * expected + 0.15,
    );
  });

  it('gathers from New Year on, so that a need is reached on the first day that brings it', () => {
    const weather = drawWeather(seededRandom(4), dayOf(2018, 7, 1), 900);
    const year = heatOfYear(weather, 2019);
    const day = dayReached(year, 300)!;
    expect(year.upTo[day - year.newYear]!).toBeGreaterThanOrEqual(300);
    expect(year.upTo[day - year.newYear - 1]!).toBeLessThan(300);
    expect(dayReached(year, 1e9)).toBeNull();
  });
});

describe('drawn weather', () => {
  const first = dayOf(1999, 1, 1);
  const weather = drawWeather(seededRandom('weather'), first, 20 * 365);
  const month = (number: number): number => {
    let [sum, n] = [0, 0];
    for (let year = 1999; year < 2018; year++) {
      for (let day = dayOf(year, number, 1); day < dayOf(year, number, 28); day++) {
        sum += (weather.lowest[day - first]! + weather.highest[day - first]!) / 2;
        n++;
      }
    }
    return sum / n;
  };

  it('never has a lowest temperature above the highest, on either site', () => {
    for (const each of [weather, neighbouring(seededRandom(1), weather, 1.1)]) {
      expect(each.lowest.every((low, i) => low < each.highest[i]!)).toBe(true);
      expect(each.rain.every((rain) => rain >= 0)).toBe(true);
    }
  });

  // The invented climate: January 2 to 5 °C, July 17 to 21 °C on average.
  it('is mild in winter and warm in summer', () => {
    expect(month(1)).toBeGreaterThan(1);
    expect(month(1)).toBeLessThan(5);
    expect(month(7)).toBeGreaterThan(17);
    expect(month(7)).toBeLessThan(21);
  });

  it('carries over from day to day', () => {
    const means = weather.lowest.map((low, i) => (low + weather.highest[i]!) / 2);
    // Differences of days one and twenty apart: kin if the one follows from the other, strangers if not.
    const step = (k: number) =>
      means.slice(k).reduce((sum, value, i) => sum + (value - means[i]!) ** 2, 0) / (means.length - k);
    expect(step(1)).toBeLessThan(0.6 * step(20));
  });
});
