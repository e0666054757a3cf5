import { describe, expect, test } from 'vitest';
import { colourOnScreen } from '../../src/parts/colour-on-screen.ts';
import { asPreciseAs, counted, dateInWords, dayInWords, plainNumber } from '../../src/parts/words.ts';

describe('words and numbers', () => {
  test('dates and days of the year', () => {
    expect(dateInWords('2031-05-20')).toBe('20 May 2031');
    expect(dateInWords('soon')).toBe('soon');
    expect(dayInWords(60, 2031)).toBe('1 Mar');
    expect(dayInWords(60, 2032)).toBe('29 Feb');
  });
  test('as many decimals as the doubt allows', () => {
    expect(asPreciseAs(38.6321, 1.62)).toBe('38.6');
    expect(asPreciseAs(38.6321, 0.162)).toBe('38.63');
    expect(asPreciseAs(-386.321, 16.2)).toBe('−386');
    expect(asPreciseAs(-0.001, 1)).toBe('0.0');
  });
  test('counts and plain numbers', () => {
    expect(counted(1, 'note')).toBe('1 note');
    expect(counted(2036, 'note')).toBe('2,036 notes');
    expect(plainNumber(0.1 + 0.2)).toBe('0.3');
  });
});

describe('a colour on the screen', () => {
  // source: sRGB primaries in CIELAB, D65, as in Lindbloom's tables: red 53.24, 80.09, 67.20; blue 32.30, 79.19, -107.86.
  test.each([
    [{ l: 53.24, a: 80.09, b: 67.2 }, [255, 0, 0]],
    [{ l: 32.3, a: 79.19, b: -107.86 }, [0, 0, 255]],
    [{ l: 100, a: 0, b: 0 }, [255, 255, 255]],
    [{ l: 0, a: 0, b: 0 }, [0, 0, 0]],
  ])('%o', (lab, rgb) => {
    const shown = colourOnScreen(lab).match(/\d+/g)!.map(Number);
    for (const [index, part] of rgb.entries()) expect(Math.abs(shown[index]! - part)).toBeLessThanOrEqual(2);
  });
});
