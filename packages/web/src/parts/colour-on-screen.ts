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
