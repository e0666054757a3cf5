import type { Lab } from '@keelrow/breeding/facts';
import { labOfScreenColour, screenHex } from '../../parts/colour-on-screen.ts';

/** Directions of hue in CIELAB, degrees from red to yellow; the names are everyday words, not a chart's. */
const families = [
  { name: 'white', hue: 100, chroma: 3 },
  { name: 'cream', hue: 95, chroma: 28 },
  { name: 'yellow', hue: 92, chroma: 75 },
  { name: 'orange', hue: 65, chroma: 70 },
  { name: 'red', hue: 32, chroma: 65 },
  { name: 'rose', hue: 5, chroma: 55 },
  { name: 'magenta', hue: 340, chroma: 60 },
  { name: 'purple', hue: 320, chroma: 60 },
  { name: 'violet', hue: 308, chroma: 62 },
  { name: 'blue-violet', hue: 297, chroma: 62 },
  { name: 'blue', hue: 282, chroma: 52 },
  { name: 'slate', hue: 280, chroma: 18 },
  { name: 'green', hue: 130, chroma: 40 },
  { name: 'olive', hue: 100, chroma: 35 },
  { name: 'brown', hue: 60, chroma: 28 },
  { name: 'maroon', hue: 25, chroma: 30 },
] as const;

const lightnesses = [
  { name: 'very light', l: 92 },
  { name: 'light', l: 76 },
  { name: 'middling', l: 60 },
  { name: 'dark', l: 44 },
  { name: 'very dark', l: 28 },
];
const strengths = [
  { name: 'pale', share: 0.4 },
  { name: 'clear', share: 0.7 },
  { name: 'strong', share: 1 },
];

export interface Swatch {
  readonly name: string;
  /** `#rrggbb` as the screen shows it. */
  readonly hex: string;
  /** The colour of exactly that screen colour (D65, 2°), to whole units: all that a screen in the open can tell. */
  readonly lab: Lab;
}

export interface Family {
  readonly name: string;
  readonly face: Swatch;
  /** From very light to very dark, in each from pale to strong. */
  readonly shades: readonly Swatch[];
}

const labOf = (hue: number, chroma: number, l: number): Lab => {
  const angle = (hue * Math.PI) / 180;
  return { l, a: chroma * Math.cos(angle), b: chroma * Math.sin(angle) };
};

/** The screen shows the colour and not the nearest one that it can show. */
function isShown(lab: Lab): boolean {
  const shown = labOfScreenColour(screenHex(lab));
  return Math.abs(shown.l - lab.l) < 1 && Math.hypot(shown.a - lab.a, shown.b - lab.b) < 1;
}

/** The strongest chroma of a hue and lightness that screens show, up to a wanted one. */
function shownChroma(hue: number, wanted: number, l: number): number {
  let chroma = wanted;
  while (chroma > 1 && !isShown(labOf(hue, chroma, l))) chroma -= 1;
  return chroma;
}

const swatch = (name: string, hue: number, chroma: number, l: number): Swatch => {
  const hex = screenHex(labOf(hue, chroma, l));
  const shown = labOfScreenColour(hex);
  const whole = (number: number): number => Math.round(number) || 0;
  return { name, hex, lab: { l: whole(shown.l), a: whole(shown.a), b: whole(shown.b) } };
};

/** The shade that a family is known by: light ones light, the others middling. */
function faceOf(name: string, hue: number, chroma: number): Swatch {
  const l = ['cream', 'yellow', 'white'].includes(name) ? 86 : 50;
  return swatch(name, hue, shownChroma(hue, chroma, l), l);
}

/** The grid from which a colour is picked by two touches: the family, then its shade. */
export function colourFamilies(): readonly Family[] {
  return families.map(({ name, hue, chroma }) => ({
    name,
    face: faceOf(name, hue, chroma),
    shades: lightnesses.flatMap((lightness) =>
      strengths.map((strength) =>
        swatch(`${name}, ${lightness.name}, ${strength.name}`, hue, chroma * strength.share, lightness.l),
      ),
    ),
  }));
}

/** How the value came about, kept with the note. */
export const wayOfGrid = 'picked from a grid on the screen';
