import type { WinterChance, WinterCurve, WintersReport } from '@keelrow/server/contract';
import type { Measure } from '../parts/measure.ts';
import { minus } from '../parts/words.ts';

/** A chance in per cent that never claims to be certain: `96%`, `>99%`. */
export function perCent(chance: number): string {
  if (chance > 0.99) return '>99%';
  if (chance < 0.01) return '<1%';
  return `${Math.round(chance * 100)}%`;
}

/** A chance written at an axis; tenths where the axis is that fine, so that no two marks are written alike. */
export const tickInPerCent = (chance: number): string => `${Number((100 * chance).toPrecision(6))}%`;

/** Both ends of a range: `94 to 97%`. */
export const rangeShown = ({ low, high }: Pick<WinterChance, 'low' | 'high'>): string => {
  const [from, to] = [perCent(low), perCent(high)];
  return from === to ? to : `${from.replace('%', '')} to ${to}`;
};

/** A temperature in the programme's unit, to a whole degree. */
export const coldShown = (celsius: number, measure: Measure): string =>
  `${minus(measure.toShown(celsius).toFixed(0))} ${measure.unit}`;

const whose: Readonly<Record<WinterCurve['of'], string>> = {
  'later winters': 'plants past their first winter',
  'first winters': 'plants in their first winter',
  'all winters': 'plants',
  origin: '',
};

/** What cold does, read off the curves of all origins at their two ends and at the mean winter. */
export function coldSentences({ curves, at }: WintersReport, measure: Measure): string[] {
  return curves.flatMap(({ of, points }) => {
    const [coldest, mildest] = [points[0], points.at(-1)];
    if (of === 'origin' || !coldest || !mildest || at === null) return [];
    const usual = points.reduce((a, b) => (Math.abs(b.minimum - at) < Math.abs(a.minimum - at) ? b : a));
    const of100 = ({ chance }: WinterChance): string => `${Math.round(100 * chance)}`;
    const cold = ({ minimum }: { readonly minimum: number }): string => coldShown(minimum, measure);
    return [
      `Of 100 ${whose[of]}, about ${of100(mildest)} come through a winter whose coldest night has ${cold(mildest)}, ${of100(usual)} one of ${cold(usual)} and ${of100(coldest)} one of ${cold(coldest)}.`,
    ];
  });
}

/** How the odds of loss rise with cold, for one degree of the unit shown; null where it cannot be told. */
export function oddsSentence({ oddsPerDegree }: WintersReport, measure: Measure): string | null {
  if (oddsPerDegree === null) return null;
  const degree = 1 / measure.spanToShown(1);
  const [value, low, high] = [oddsPerDegree.value, oddsPerDegree.low, oddsPerDegree.high].map((odds) =>
    (odds ** degree).toFixed(2),
  );
  return `Each ${measure.unit} colder takes the odds of loss times ${value} (${low} to ${high}, 8 times out of 10).`;
}
