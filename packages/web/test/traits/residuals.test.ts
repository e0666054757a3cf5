import type { NoteResidual } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { drawPanel, nextSpot } from '../../src/traits/panel-places.ts';
import { markPath, wordsOfStep } from '../../src/traits/residual-marks.ts';
import { panelsOf, stepOf } from '../../src/traits/residual-panels.ts';

const note = (given: Partial<NoteResidual>): NoteResidual => ({
  note: 'n',
  genet: 'g',
  code: 'G',
  plant: 'p',
  bed: 'bed-1',
  year: 2025,
  east: 1,
  north: 1,
  value: 30,
  fitted: 30,
  standardised: 0,
  flagged: false,
  ...given,
});

describe('steps of residuals', () => {
  // source: standard normal distribution, any table: half of all lie within 0.674, 80% within 1.282, 95% within 1.960.
  test('part a standard normal at its quartiles, tenths and twentieths', () => {
    expect([0, 0.66, 0.68, 1.27, 1.29, 1.95, 1.97, 9].map(stepOf)).toEqual([0, 0, 1, 1, 2, 2, 3, 3]);
    expect([-0.66, -0.68, -1.29, -1.97].map(stepOf).map((step) => step + 0)).toEqual([0, -1, -2, -3]);
  });
  test('days are later or earlier, all else more or less', () => {
    expect(wordsOfStep(3, true)).toBe('far later than expected');
    expect(wordsOfStep(-1, false)).toBe('a little less than expected');
  });
});

describe('marks', () => {
  const points = (path: string): [number, number][] =>
    [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
  test('say by their shape alone on which side they stand: point up for more, down for less', () => {
    const apex = (step: 2 | -2) => points(markPath(0, 0, step, 10))[2]![1];
    const base = (step: 2 | -2) => points(markPath(0, 0, step, 10))[0]![1];
    expect(apex(2)).toBeLessThan(base(2));
    expect(apex(-2)).toBeGreaterThan(base(-2));
  });
  test('are the larger the farther off', () => {
    const widths = ([1, 2, 3] as const).map((step) => {
      const [[left], [right]] = points(markPath(0, 0, step, 10)) as [[number, number], [number, number]];
      return right - left;
    });
    expect(widths[0]).toBeLessThan(widths[1]!);
    expect(widths[1]).toBeLessThan(widths[2]!);
  });
});

describe('panels', () => {
  test('one a bed and year, beds in the order of their numbers, without a bed last', () => {
    const beds = panelsOf([
      note({ bed: 'bed-10' }),
      note({ bed: null }),
      note({ bed: 'bed-2', year: 2026 }),
      note({ bed: 'bed-2', year: 2024 }),
    ]);
    expect(beds.map(({ bed, panels }) => [bed, panels.map(({ year }) => year)])).toEqual([
      ['bed-2', [2024, 2026]],
      ['bed-10', [2025]],
      [null, [2025]],
    ]);
  });
  test('a plant noted twice in a year is one mark, at the mean of both', () => {
    const [bed] = panelsOf([note({ standardised: 3 }), note({ note: 'm', standardised: -1 })]);
    expect(bed!.panels[0]!.spots).toMatchObject([{ off: 1, step: 1 }]);
  });
  test('a note that alone determines what is made of it says nothing', () => {
    expect(panelsOf([note({ standardised: null })])).toEqual([]);
  });
});

describe('the drawing of a panel', () => {
  const size = { width: 220, highest: 100, margin: 10 };
  const four = panelsOf([
    note({ plant: 'sw', east: 0, north: 0 }),
    note({ plant: 'se', east: 10, north: 0 }),
    note({ plant: 'nw', east: 0, north: 2 }),
    note({ plant: 'ne', east: 10, north: 2 }),
    note({ plant: 'lost', east: null, north: null }),
  ])[0]!;
  const drawing = drawPanel(four.frame, four.panels[0]!, size);
  const at = (key: string) => drawing.placed.find(({ spot }) => spot.key === key)!;
  test('has north up and one scale both ways', () => {
    expect(at('nw').y).toBeLessThan(at('sw').y);
    expect(at('sw').x).toBeLessThan(at('se').x);
    expect((at('se').x - at('sw').x) / 10).toBeCloseTo((at('sw').y - at('nw').y) / 2, 9);
    expect(drawing.height).toBeCloseTo(60, 9);
  });
  test('counts plants whose place nobody noted', () => {
    expect(drawing.unplaced).toBe(1);
    expect(drawing.byPlace).toBe(true);
  });
  test('is walked by arrows to the next mark in that direction, and no further', () => {
    expect(nextSpot(drawing.placed, 'sw', 'ArrowRight')).toBe('se');
    expect(nextSpot(drawing.placed, 'sw', 'ArrowUp')).toBe('nw');
    expect(nextSpot(drawing.placed, 'sw', 'ArrowLeft')).toBe(null);
    expect(nextSpot(drawing.placed, 'sw', 'Enter')).toBe(null);
  });
  test('without any place heaps the plants from less on the left to more on the right', () => {
    const heaped = panelsOf(
      [-2, -2, 0, 3].map((standardised, index) =>
        note({ plant: `p${index}`, east: null, north: null, standardised }),
      ),
    )[0]!;
    const { placed, byPlace } = drawPanel(heaped.frame, heaped.panels[0]!, size);
    const [a, b, c, d] = placed as [
      (typeof placed)[0],
      (typeof placed)[0],
      (typeof placed)[0],
      (typeof placed)[0],
    ];
    expect(byPlace).toBe(false);
    expect(a.x).toBe(b.x);
    expect(a.y).not.toBe(b.y);
    expect(c.x).toBe(110);
    expect(d.x).toBeGreaterThan(c.x);
  });
});
