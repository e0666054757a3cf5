import { colourDifference } from '@keelrow/breeding/colour';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { colourOnScreen, labOfScreenColour } from '../../src/parts/colour-on-screen.ts';
import { colourFamilies } from '../../src/walk/entries/colour-grid.ts';
import { quarters, readMeasured, writeInches } from '../../src/walk/entries/measured-text.ts';
import { monthBeside, weeksOf } from '../../src/walk/entries/month-days.ts';
import { gates, tallied } from '../../src/walk/entries/tally.ts';
import { openIn, openTen, openWhole, twoTouchPad, unitsOf } from '../../src/walk/entries/tens-and-units.ts';

describe('two touches', () => {
  test('reach every whole number within limits that fit the keys', () => {
    fc.assert(
      fc.property(fc.integer({ min: 21, max: 239 }), fc.nat(), (most, pick) => {
        const number = pick % (most + 1);
        const pad = twoTouchPad({ least: 0, most }, [], true);
        expect(pad.tens.filter((ten) => unitsOf(pad, ten).includes(number))).toHaveLength(1);
        expect(pad.tens.length).toBeLessThanOrEqual(24);
      }),
    );
  });

  test('tell small measures to a tenth', () => {
    const pad = twoTouchPad({ least: 1, most: 8 }, [], false);
    expect(pad.tens).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(unitsOf(pad, 4)).toEqual([4, 4.1, 4.2, 4.3, 4.4, 4.5, 4.6, 4.7, 4.8, 4.9]);
  });

  test('offer the usual numbers where the limits are wider than the keys', () => {
    const pad = twoTouchPad({ least: 1, most: 400 }, [180, 190, 210], false);
    expect(pad.tens).toHaveLength(24);
    expect(pad.tens).toContain(90);
    expect(pad.tens).toContain(290);
    expect(twoTouchPad({ least: 1, most: 400 }, [390], false).tens.at(-1)).toBe(400);
    expect(twoTouchPad({ least: null, most: null }, [], true).tens).toEqual([
      0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100,
    ]);
  });

  test('an open number is told from a whole one', () => {
    expect(openIn(openTen(120))).toEqual({ sort: 'ten', number: 120 });
    expect(openIn(openWhole(36))).toEqual({ sort: 'whole', number: 36 });
    for (const closed of ['', '12', '12.5', '36½']) expect(openIn(closed)).toBeNull();
  });
});

describe('measured text', () => {
  test('is read as it is written on a rule', () => {
    const read = {
      '36': 36,
      '36.5': 36.5,
      '36,5': 36.5,
      '36½': 36.5,
      '36 1/2': 36.5,
      '3/4': 0.75,
      '¾': 0.75,
      '-3': -3,
      '.5': 0.5,
      '36.': 36,
    };
    for (const [typed, number] of Object.entries(read)) expect(readMeasured(typed), typed).toBe(number);
    for (const typed of ['', '36 1/3', '36 5/4', 'x', '3-4', '1/0', '--3'])
      expect(readMeasured(typed), typed).toBeNull();
  });

  test('eighths of an inch come back from what is shown', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2400 }), (eighths) => {
        expect(readMeasured(writeInches(eighths / 8))).toBe(eighths / 8);
      }),
    );
    expect(quarters.map((quarter) => writeInches(36 + quarter))).toEqual(['36', '36¼', '36½', '36¾']);
    expect(writeInches(36.61)).toBe('36.61');
  });
});

test('a tally counts by one, never below none, and is drawn in gates of five', () => {
  expect(['', '1', '9'].map((typed) => tallied(typed, 1))).toEqual(['1', '2', '10']);
  expect(tallied('', -1)).toBe('0');
  expect(gates('12')).toEqual({ full: 2, strokes: 2 });
  expect(gates('')).toEqual({ full: 0, strokes: 0 });
});

test('a calendar has each day of the month once, under its weekday', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1990, max: 2060 }), fc.integer({ min: 1, max: 12 }), (year, month) => {
      const name = `${year}-${String(month).padStart(2, '0')}`;
      const weeks = weeksOf(name);
      // The language's own calendar, UTC, is the check.
      const days = new Date(Date.UTC(year, month, 0)).getUTCDate();
      expect(weeks.flat().filter((day) => day !== null)).toHaveLength(days);
      for (const week of weeks)
        for (const [index, day] of week.entries())
          if (day !== null) expect((new Date(`${day}T00:00:00Z`).getUTCDay() + 6) % 7).toBe(index);
    }),
  );
  expect(monthBeside('2031-01', -1)).toBe('2030-12');
  expect(monthBeside('2031-12', 1)).toBe('2032-01');
});

describe('the grid of colours', () => {
  const families = colourFamilies();

  test('stores what the screen shows, to the rounding', () => {
    for (const { lab, hex } of families.flatMap(({ shades, face }) => [face, ...shades])) {
      expect(colourDifference(lab, labOfScreenColour(hex)).total).toBeLessThan(1.2);
      expect(colourOnScreen(lab)).toMatch(/^rgb\(\d+ \d+ \d+\)$/);
    }
  });

  test('has no two shades alike in a family', () => {
    for (const { shades } of families) {
      for (const [index, { lab, name }] of shades.entries())
        for (const other of shades.slice(index + 1))
          expect(colourDifference(lab, other.lab).total, `${name} and ${other.name}`).toBeGreaterThan(0.5);
    }
  });

  test('has names of its own for all its swatches, and families that are told apart', () => {
    const names = families.flatMap(({ shades }) => shades.map(({ name }) => name));
    expect(new Set(names).size).toBe(names.length);
    for (const [index, family] of families.entries())
      for (const other of families.slice(index + 1))
        expect(
          colourDifference(family.face.lab, other.face.lab).total,
          `${family.name}, ${other.name}`,
        ).toBeGreaterThan(5);
  });
});
