import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

/** The palette as it is shipped: name to its colour by day and by night. */
const css = readFileSync(new URL('../../src/looks/tokens.css', import.meta.url), 'utf8');
const pairs = [...css.matchAll(/--([a-z0-9-]+):\s*light-dark\((#[0-9a-f]{6}),\s*(#[0-9a-f]{6})\)/g)];
const palette = new Map(pairs.map(([, name, light, dark]) => [name!, { light: light!, dark: dark! }]));
const values = [...css.matchAll(/--value-(\d):\s*(#[0-9a-f]{6})/g)].map(([, , colour]) => colour!);

/** Relative luminance and contrast ratio. source: WCAG 2.2, definitions of “relative luminance” and “contrast ratio”. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)) as [
    number,
    number,
    number,
  ];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
const contrast = (a: string, b: string): number => {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
};

test('the measure of contrast is right: black on white is 21, #767676 on white just passes', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  // source: WebAIM and W3C examples give 4.54 for #767676 on white (from memory).
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

/** Text and its grounds: WCAG 2.2, 1.4.3, at least 4.5. */
const text: readonly [string, readonly string[]][] = [
  ['ink', ['ground', 'paper', 'paper-2', 'violet-tint', 'keel-tint', 'rust-tint', 'foliage-tint']],
  ['ink-soft', ['ground', 'paper', 'paper-2', 'violet-tint', 'keel-tint', 'foliage-tint']],
  ['violet', ['ground', 'paper', 'paper-2', 'keel-tint', 'violet-tint']],
  ['violet-deep', ['ground', 'paper', 'violet-tint']],
  ['on-violet', ['violet', 'violet-deep']],
  ['foliage', ['ground', 'paper']],
  ['straw', ['ground', 'paper', 'paper-2', 'keel-tint']],
  ['rust', ['ground', 'paper', 'rust-tint']],
  ['on-band', ['band']],
  ['on-band-soft', ['band']],
];

/** Edges of controls, marks and focus: WCAG 2.2, 1.4.11 and 2.4.13, at least 3. */
const marks: readonly [string, readonly string[]][] = [
  ['rule-strong', ['ground', 'paper']],
  ['violet', ['ground', 'paper', 'paper-2', 'keel-tint']],
  ['foliage', ['paper', 'ground', 'keel-tint']],
  ['straw', ['paper', 'keel-tint']],
  ['rust', ['paper', 'ground', 'rust-tint']],
  ['keel', ['band']],
];

for (const theme of ['light', 'dark'] as const) {
  describe(`contrast, ${theme}`, () => {
    const of = (name: string): string => palette.get(name)![theme];
    for (const [fore, grounds] of text) {
      for (const ground of grounds) {
        test(`${fore} is read on ${ground}`, () => {
          expect(contrast(of(fore), of(ground))).toBeGreaterThanOrEqual(4.5);
        });
      }
    }
    for (const [fore, grounds] of marks) {
      for (const ground of grounds) {
        test(`${fore} is seen on ${ground}`, () => {
          expect(contrast(of(fore), of(ground))).toBeGreaterThanOrEqual(3);
        });
      }
    }
  });
}

describe('the palette of values', () => {
  test('has seven steps, each clearly darker than the one before, so that it is read without colour vision', () => {
    expect(values).toHaveLength(7);
    for (let step = 1; step < values.length; step++) {
      expect(contrast(values[step - 1]!, values[step]!), `steps ${step} and ${step + 1}`).toBeGreaterThan(
        1.25,
      );
      expect(luminance(values[step]!)).toBeLessThan(luminance(values[step - 1]!));
    }
  });
  test('its numbers are read on it: dark on the first four steps, white on the last three', () => {
    for (const colour of values.slice(0, 4)) expect(contrast('#1b262c', colour)).toBeGreaterThanOrEqual(4.5);
    for (const colour of values.slice(4)) expect(contrast('#ffffff', colour)).toBeGreaterThanOrEqual(4.5);
  });
});
