import type { Lab } from '@keelrow/breeding/facts';

/** White of D65 and the 2° observer, Y = 1 (CIE 15:2004, table T.3). */
const white = [0.95047, 1, 1.08883] as const;

/**
 * A CIELAB colour (D65, 2°) as a screen shows it: to XYZ by CIE 15:2004, to sRGB by IEC 61966-2-1; what a screen
 * cannot show is cut off at its limits.
 */
export function colourOnScreen({ l, a, b }: Lab): string {
  const fy = (l + 16) / 116;
  const [x, y, z] = [fy + a / 500, fy, fy - b / 200].map((f, index) => fromCubeRoot(f) * white[index]!) as [
    number,
    number,
    number,
  ];
  const linear = [
    3.2406 * x - 1.5372 * y - 0.4986 * z,
    -0.9689 * x + 1.8758 * y + 0.0415 * z,
    0.0557 * x - 0.204 * y + 1.057 * z,
  ];
  const [red, green, blue] = linear.map((part) => Math.round(255 * Math.min(1, Math.max(0, gamma(part)))));
  return `rgb(${red} ${green} ${blue})`;
}

/** The inverse of CIELAB's f: a cube, near black a straight line. */
const fromCubeRoot = (f: number): number => (f > 6 / 29 ? f ** 3 : 3 * (6 / 29) ** 2 * (f - 4 / 29));

const gamma = (part: number): number =>
  part <= 0.0031308 ? 12.92 * part : 1.055 * part ** (1 / 2.4) - 0.055;

/** The CIELAB colour (D65, 2°) of an sRGB colour written `#rrggbb`: the way back, by the same standards. */
export function labOfScreenColour(hex: string): Lab {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  const [fx, fy, fz] = [
    0.4124 * red + 0.3576 * green + 0.1805 * blue,
    0.2126 * red + 0.7152 * green + 0.0722 * blue,
    0.0193 * red + 0.1192 * green + 0.9505 * blue,
  ].map((part, index) => toCubeRoot(part / white[index]!)) as [number, number, number];
  return { l: 116 * fy - 16, a: 500 * (fx - fy), b: 200 * (fy - fz) };
}

const toCubeRoot = (part: number): number =>
  part > (6 / 29) ** 3 ? Math.cbrt(part) : part / (3 * (6 / 29) ** 2) + 4 / 29;

/** A colour of `colourOnScreen` as `#rrggbb`, for the browser's own colour chooser. */
export function screenHex(lab: Lab): string {
  const parts = colourOnScreen(lab).match(/\d+/g) ?? [];
  return `#${parts.map((part) => Number(part).toString(16).padStart(2, '0')).join('')}`;
}
