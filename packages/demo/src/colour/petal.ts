import { labOf, wavelengths } from './cie.ts';

/**
 * How a simulated petal looks: light passes the coloured sap twice and is thrown back by the white tissue below
 * (Beer and Lambert's law). The bands are ours: the violet has a steep red flank and a long blue one, the yellow three
 * close peaks. The program itself explains colours by another model, so that the two do not agree by construction.
 */
const bell = (nm: number, peak: number, below: number, above: number): number => {
  const t = (nm - peak) / (nm < peak ? below : above);
  return Math.exp(-0.5 * t * t);
};

const violetBand = (nm: number, peak: number): number =>
  bell(nm, peak, 58, 46) + 0.2 * bell(nm, peak - 48, 24, 24) + 0.1 * bell(nm, 412, 20, 18);

const yellow = wavelengths.map(
  (nm) =>
    0.72 * bell(nm, 427, 24, 14) +
    bell(nm, 451, 13, 13) +
    0.84 * bell(nm, 481, 12, 15) +
    0.4 * bell(nm, 395, 20, 22),
);
const tissue = wavelengths.map((nm) => 0.9 - 0.12 * bell(nm, 395, 30, 30));
const gloss = 0.025;

/** CIELAB (D65, 2°) of a petal with these loads of violet and yellow; `bandNm` is where the violet absorbs most. */
export function petalColour(
  anthocyanin: number,
  yellowLoad: number,
  bandNm: number,
): { l: number; a: number; b: number } {
  const reflectance = wavelengths.map((nm, k) => {
    const depth = anthocyanin * violetBand(nm, bandNm) + 0.62 * yellowLoad * yellow[k]!;
    return gloss + tissue[k]! * 10 ** (-0.9 * depth);
  });
  return labOf(reflectance);
}
