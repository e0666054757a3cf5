/**
 * From a reflectance to CIELAB. Colour-matching functions: the multi-lobe fit of Wyman, Sloan & Shirley 2013
 * (Journal of Computer Graphics Techniques 2(2):1-11) to the CIE 1931 2° observer; light: CIE standard illuminant D65
 * at 10 nm; CIELAB: CIE 15:2004.
 */
export const wavelengths: readonly number[] = Array.from({ length: 31 }, (_, k) => 400 + 10 * k);

const d65 = [
  82.75, 91.49, 93.43, 86.68, 104.86, 117.01, 117.81, 114.86, 115.92, 108.81, 109.35, 107.8, 104.79, 107.69,
  104.41, 104.05, 100, 96.33, 95.79, 88.69, 90.01, 89.6, 87.7, 83.29, 83.7, 80.03, 80.21, 82.28, 78.28, 69.72,
  71.61,
];

const lobe = (at: number, peak: number, below: number, above: number): number => {
  const t = (at - peak) * (at < peak ? below : above);
  return Math.exp(-0.5 * t * t);
};
const matching = wavelengths.map((nm) => ({
  x:
    0.362 * lobe(nm, 442, 0.0624, 0.0374) +
    1.056 * lobe(nm, 599.8, 0.0264, 0.0323) -
    0.065 * lobe(nm, 501.1, 0.049, 0.0382),
  y: 0.821 * lobe(nm, 568.8, 0.0213, 0.0247) + 0.286 * lobe(nm, 530.9, 0.0613, 0.0322),
  z: 1.217 * lobe(nm, 437, 0.0845, 0.0278) + 0.681 * lobe(nm, 459, 0.0385, 0.0725),
}));

export interface Xyz {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Tristimulus values of a reflectance under D65, scaled so that a perfect white has Y = 1. */
export function xyzOf(reflectance: readonly number[]): Xyz {
  let [x, y, z, full] = [0, 0, 0, 0];
  for (let k = 0; k < wavelengths.length; k++) {
    const light = d65[k]! * reflectance[k]!;
    const fit = matching[k]!;
    x += light * fit.x;
    y += light * fit.y;
    z += light * fit.z;
    full += d65[k]! * fit.y;
  }
  return { x: x / full, y: y / full, z: z / full };
}

const white = xyzOf(wavelengths.map(() => 1));

const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);

export function labOf(reflectance: readonly number[]): { l: number; a: number; b: number } {
  const { x, y, z } = xyzOf(reflectance);
  const [fx, fy, fz] = [f(x / white.x), f(y / white.y), f(z / white.z)];
  return { l: 116 * fy - 16, a: 500 * (fx - fy), b: 200 * (fy - fz) };
}
