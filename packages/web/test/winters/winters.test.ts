import type { WintersReport } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { measureOf } from '../../src/parts/measure.ts';
import { notedWinters } from '../../src/winters/noted-winters.ts';
import { labelsBeside } from '../../src/winters/point-labels.ts';
import { rankedGenets, type WinterGenet } from '../../src/winters/ranked-genets.ts';
import {
  coldSentences,
  oddsSentence,
  perCent,
  rangeShown,
  tickInPerCent,
} from '../../src/winters/winter-words.ts';

const genet = (code: string, chance: number, stood: number, alive = 1): WinterGenet => ({
  id: code,
  code,
  name: null,
  origin: 'hills',
  alive,
  chance,
  low: chance - 0.05,
  high: chance + 0.02,
  stood,
  lost: 0,
});

test('genets of one chance share a rank; those without a standing plant are listed on wish', () => {
  const genets = [genet('a', 0.9, 2), genet('b', 0.95, 3), genet('c', 0.9, 7), genet('d', 0.97, 1, 0)];
  const told = (withGone: boolean) =>
    rankedGenets(genets, withGone).map((one) => `${one.rank}${one.shared ? '=' : ''} ${one.genet.code}`);
  expect(told(false)).toEqual(['1 b', '2= c', '2= a']);
  expect(told(true)).toEqual(['1 d', '2 b', '3= c', '3= a']);
});

describe('words', () => {
  test('marks of a fine axis are not written alike', () => {
    expect([0.7, 0.99, 0.995, 1, 3 * 0.1].map(tickInPerCent)).toEqual(['70%', '99%', '99.5%', '100%', '30%']);
  });
  const point = (minimum: number, chance: number) => ({ minimum, chance, low: chance, high: chance });
  const report = {
    at: -10,
    oddsPerDegree: { value: 1.2, low: 1.1, high: 1.3 },
    curves: [
      { of: 'later winters', origin: null, points: [point(-20, 0.8), point(-10, 0.93), point(-5, 0.966)] },
      { of: 'origin', origin: 'hills', points: [point(-20, 0.1)] },
    ],
  } as unknown as WintersReport;

  test('never claim certainty', () => {
    expect([0.9999, 0.962, 0.001].map(perCent)).toEqual(['>99%', '96%', '<1%']);
    expect(rangeShown({ low: 0.94, high: 0.97 })).toBe('94 to 97%');
    expect(rangeShown({ low: 0.96, high: 0.999 })).toBe('96 to >99%');
  });

  test('read the curve of all plants in the programme’s unit', () => {
    expect(coldSentences(report, measureOf('°C', 'metric'))).toEqual([
      'Of 100 plants past their first winter, about 97 come through a winter whose coldest night has −5 °C, 93 one of −10 °C and 80 one of −20 °C.',
    ]);
    // −20 °C is −4 °F, −10 °C is 14 °F, −5 °C is 23 °F (definition of the scale).
    expect(coldSentences(report, measureOf('°C', 'us'))[0]).toContain(
      '23 °F, 93 one of 14 °F and 80 one of −4 °F',
    );
    expect(coldSentences({ ...report, curves: [] }, measureOf('°C', 'metric'))).toEqual([]);
  });

  test('tell the odds for one degree of the unit shown: 1.8 °F are 1 °C', () => {
    expect(oddsSentence(report, measureOf('°C', 'metric'))).toContain('times 1.20 (1.10 to 1.30');
    const us = /times ([\d.]+)/.exec(oddsSentence(report, measureOf('°C', 'us'))!)![1];
    expect(Number(us) ** 1.8).toBeCloseTo(1.2, 1);
  });
});

test('marks hold the share alive of the plants that their curve is of', () => {
  const winters = [
    { winter: 2030, minimum: -9, stood: 10, lost: 4, first: { stood: 4, lost: 3 } },
    { winter: 2031, minimum: -7, stood: 6, lost: 0, first: { stood: 0, lost: 0 } },
    { winter: 2032, minimum: null, stood: 6, lost: 1, first: { stood: 1, lost: 1 } },
  ];
  const curves = [{ of: 'later winters' }, { of: 'first winters' }, { of: 'origin' }];
  const told = notedWinters({ winters, curves } as unknown as WintersReport);
  expect(told.map(({ of, winter, stood, share }) => `${of} ${winter}: ${stood} ${share.toFixed(2)}`)).toEqual(
    ['later winters 2030: 6 0.83', 'later winters 2031: 6 1.00', 'first winters 2030: 4 0.25'],
  );
});

test('words beside marks cover neither one another nor other marks while there is room', () => {
  const marks = [
    { x: 100, y: 60, radius: 10, width: 50 },
    { x: 112, y: 62, radius: 9, width: 50 },
    { x: 150, y: 58, radius: 5, width: 50 },
    { x: 390, y: 60, radius: 8, width: 50 },
  ];
  const labels = labelsBeside(marks, { width: 400, height: 200 });
  const boxes = labels.map(({ x, y }) => ({ left: x, right: x + 50, top: y - 11, bottom: y + 4 }));
  const discs = marks.map(({ x, y, radius: r }) => ({
    left: x - r,
    right: x + r,
    top: y - r,
    bottom: y + r,
  }));
  const meet = (a: (typeof boxes)[number], b: (typeof boxes)[number]) =>
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  boxes.forEach((box, index) => {
    expect(box.right).toBeLessThanOrEqual(400);
    expect(boxes.some((other, k) => k !== index && meet(box, other))).toBe(false);
    expect(discs.some((disc, k) => k !== index && meet(box, disc))).toBe(false);
  });
});
