import type { Lab } from '../facts/index.ts';

/** A difference of two colours and its parts, each weighted as it counts in the total. */
export interface ColourDifference {
  /** CIEDE2000 with k_L = k_C = k_H = 1; about 1 is just noticeable. */
  readonly total: number;
  /** Of the second colour against the first: above 0 lighter, more colourful, turned onwards in hue (red to yellow to green to blue). */
  readonly lightness: number;
  readonly chroma: number;
  readonly hue: number;
}

const degrees = Math.PI / 180;
const to25 = 25 ** 7;

/** Share by which blue and yellow chroma saturates: √(C⁷/(C⁷ + 25⁷)), equations 4 and 17 of the source. */
const saturation = (chroma: number): number => {
  const power = chroma ** 7;
  return Math.sqrt(power / (power + to25));
};

/** Angle of a hue in degrees, 0 to 360; 0 for a neutral (equation 7). */
const hueAngle = (a: number, b: number): number => {
  if (a === 0 && b === 0) return 0;
  const angle = Math.atan2(b, a) / degrees;
  return angle < 0 ? angle + 360 : angle;
};

/**
 * The colour difference CIEDE2000 of two CIELAB colours under one white.
 * Source: G. Sharma, W. Wu and E. N. Dalal 2005, Color Research and Application 30:21-30, equations 2 to 22, whose
 * treatment of hues across 0° and of neutrals is followed.
 */
export function colourDifference(one: Lab, other: Lab): ColourDifference {
  const meanChroma = (Math.hypot(one.a, one.b) + Math.hypot(other.a, other.b)) / 2;
  const stretch = 1 + 0.5 * (1 - saturation(meanChroma));
  const [a1, a2] = [one.a * stretch, other.a * stretch];
  const [c1, c2] = [Math.hypot(a1, one.b), Math.hypot(a2, other.b)];
  const [h1, h2] = [hueAngle(a1, one.b), hueAngle(a2, other.b)];
  const neutral = c1 * c2 === 0;

  const turned = neutral ? 0 : h2 - h1;
  const hueStep = turned > 180 ? turned - 360 : turned < -180 ? turned + 360 : turned;
  const hueDistance = 2 * Math.sqrt(c1 * c2) * Math.sin((hueStep / 2) * degrees);

  const lightness = (one.l + other.l) / 2;
  const chroma = (c1 + c2) / 2;
  const sum = h1 + h2;
  const hue = neutral ? sum : Math.abs(h1 - h2) <= 180 ? sum / 2 : sum < 360 ? sum / 2 + 180 : sum / 2 - 180;

  const t =
    1 -
    0.17 * Math.cos((hue - 30) * degrees) +
    0.24 * Math.cos(2 * hue * degrees) +
    0.32 * Math.cos((3 * hue + 6) * degrees) -
    0.2 * Math.cos((4 * hue - 63) * degrees);
  const fromMiddle = (lightness - 50) ** 2;
  const rotation = -2 * saturation(chroma) * Math.sin(60 * degrees * Math.exp(-(((hue - 275) / 25) ** 2)));

  const parts = {
    lightness: (other.l - one.l) / (1 + (0.015 * fromMiddle) / Math.sqrt(20 + fromMiddle)),
    chroma: (c2 - c1) / (1 + 0.045 * chroma),
    hue: hueDistance / (1 + 0.015 * chroma * t),
  };
  const squared =
    parts.lightness ** 2 + parts.chroma ** 2 + parts.hue ** 2 + rotation * parts.chroma * parts.hue;
  return { total: Math.sqrt(Math.max(0, squared)), ...parts };
}
