import { describe, expect, it } from 'vitest';
import { labOf, wavelengths, xyzOf } from '../src/colour/cie.ts';
import { petalColour } from '../src/colour/petal.ts';

describe('from reflectance to CIELAB', () => {
  // source: CIE standard illuminant D65, 2° observer: x = 0.3127, y = 0.3290 (CIE 15:2004, from memory). The fit of the
  // matching functions and the 10 nm steps cost some units of the third decimal.
  it('puts a perfect white at the chromaticity of D65', () => {
    const { x, y, z } = xyzOf(wavelengths.map(() => 1));
    expect(Math.abs(x / (x + y + z) - 0.3127)).toBeLessThan(0.003);
    expect(Math.abs(y / (x + y + z) - 0.329)).toBeLessThan(0.003);
    expect(y).toBeCloseTo(1, 12);
  });

  // source: L* = 116 (Y/Yn)^(1/3) − 16 (CIE 15:2004): 49.50 at a reflectance of 0.18.
  it('gives white 100, greys their lightness and no colour', () => {
    const white = labOf(wavelengths.map(() => 1));
    expect([white.l, white.a, white.b].map((v) => Math.round(v * 1e6) / 1e6 + 0)).toEqual([100, 0, 0]);
    const grey = labOf(wavelengths.map(() => 0.18));
    expect(grey.l).toBeCloseTo(49.496, 2);
    expect(Math.hypot(grey.a, grey.b)).toBeLessThan(1e-9);
  });
});

/** Hue angle in degrees, 0 red, 90 yellow, 180 green, 270 blue. */
const hue = ({ a, b }: { a: number; b: number }): number => ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
const chroma = ({ a, b }: { a: number; b: number }): number => Math.hypot(a, b);

// What is known of pigments in flowers of the pea family (common practice, no source; blue by yellow in alfalfa: Barnes 1972).
describe('a simulated petal', () => {
  it('is white or ivory with little of both pigments', () => {
    const white = petalColour(0.02, 0.08, 578);
    expect(white.l).toBeGreaterThan(88);
    expect(chroma(white)).toBeLessThan(16);
  });

  it('is blue to violet with blue alone, and bluer the farther its band lies to the red', () => {
    const [red, blue] = [petalColour(1.6, 0.05, 570), petalColour(1.6, 0.05, 600)];
    expect(hue(blue)).toBeGreaterThan(270);
    expect(hue(blue)).toBeLessThan(310);
    expect(hue(red)).toBeGreaterThan(hue(blue) + 8);
  });

  it('is yellow with yellow alone', () => {
    const yellow = petalColour(0.05, 1.6, 565);
    expect(hue(yellow)).toBeGreaterThan(85);
    expect(hue(yellow)).toBeLessThan(110);
  });

  it('is dull with both', () => {
    const both = petalColour(0.95, 0.9, 588);
    expect(chroma(both)).toBeLessThan(0.4 * chroma(petalColour(0.95, 0.05, 588)));
    expect(both.l).toBeLessThan(70);
  });

  it('pales as either pigment is thinned', () => {
    const lightness = [1.6, 0.8, 0.4, 0.2, 0].map((load) => petalColour(load, 0.05, 590).l);
    expect([...lightness].sort((x, y) => x - y)).toEqual(lightness);
  });
});
