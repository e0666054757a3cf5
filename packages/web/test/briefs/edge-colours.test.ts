import { colourDifference } from '@keelrow/breeding/colour';
import { describe, expect, test } from 'vitest';
import { edgeColours } from '../../src/briefs/edge-colours.ts';
import { colourOnScreen, labOfScreenColour, screenHex } from '../../src/parts/colour-on-screen.ts';

describe('colours that only just do', () => {
  test('lie at the difference asked for, by CIEDE2000', () => {
    const slate = { l: 42, a: 6, b: -14 };
    const edges = edgeColours(slate, 8);
    expect(edges.map(({ words }) => words)).toEqual([
      'darker',
      'lighter',
      'redder',
      'greener',
      'yellower',
      'bluer',
    ]);
    for (const { colour } of edges) expect(colourDifference(slate, colour).total).toBeCloseTo(8, 5);
  });
  test('a direction that ends before is left out: nothing is much lighter than white', () => {
    expect(edgeColours({ l: 98, a: 0, b: 0 }, 8).map(({ words }) => words)).not.toContain('lighter');
  });
});

describe('a colour chosen on the screen', () => {
  // source: sRGB primaries in CIELAB, D65, as in Lindbloom's tables: red 53.24, 80.09, 67.20; blue 32.30, 79.19, -107.86.
  test.each([
    ['#ff0000', [53.24, 80.09, 67.2]],
    ['#0000ff', [32.3, 79.19, -107.86]],
    ['#ffffff', [100, 0, 0]],
    ['#000000', [0, 0, 0]],
  ])('%s is the CIELAB colour of the tables', (hex, [l, a, b]) => {
    const lab = labOfScreenColour(hex);
    expect(Math.abs(lab.l - l!)).toBeLessThan(0.1);
    expect(Math.abs(lab.a - a!)).toBeLessThan(0.1);
    expect(Math.abs(lab.b - b!)).toBeLessThan(0.1);
  });
  test.each(['#6a5acd', '#123456', '#fefdfc', '#808080'])('%s comes back as itself', (hex) => {
    expect(screenHex(labOfScreenColour(hex))).toBe(hex);
    expect(colourOnScreen(labOfScreenColour(hex))).toMatch(/^rgb\(/);
  });
});
