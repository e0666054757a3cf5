export type DecimalMark = '.' | ',';

/** A number as written, taken apart but not yet read. */
export interface NumberShape {
  readonly negative: boolean;
  /** Digits with the marks between them, spaces and apostrophes already taken out. */
  readonly digits: string;
  readonly exponent: string;
  /** Halves, quarters and the like beside the digits. */
  readonly fraction: number;
  /** What stands behind the number: a unit perhaps. */
  readonly rest: string;
}

// Fractions that have a sign of their own in Unicode (block Number Forms and Latin-1).
const fractionSigns: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅕': 1 / 5,
  '⅖': 2 / 5,
  '⅗': 3 / 5,
  '⅘': 4 / 5,
  '⅙': 1 / 6,
  '⅚': 5 / 6,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};

const rulerParts = new Set([2, 3, 4, 5, 6, 8, 10, 16, 32, 64]);

const sign = '(?<sign>[+\\-\\u2212\\u2013\\uff0d]?)';
// Thousands apart by a space (also no-break and thin ones) or an apostrophe, always three by three.
const spaced = "\\d{1,3}(?:[ \\u00a0\\u2009\\u202f'\\u2019]\\d{3})+(?:[.,]\\d+)?(?!\\d)";
const marked = '\\d+(?:[.,]\\d+)*|[.,]\\d+';
const exponent = '(?<exponent>[eE][+\\-]?\\d{1,3})?';
const signs = Object.keys(fractionSigns).join('');
const fractionPattern = new RegExp(
  `^${sign}(?:(?<whole>\\d+)(?:[ \\u00a0-]+|(?=[${signs}])))?(?:(?<top>\\d+)[/\\u2044](?<bottom>\\d+)|(?<fraction>[${signs}]))(?<rest>\\D.*)?$`,
  'su',
);
const numberPattern = new RegExp(
  `^${sign}\\s?(?<digits>${spaced}|${marked})${exponent}(?<rest>[^\\d].*)?$`,
  'su',
);

/** A longer text is a remark. */
const longestNumber = 100;

/** Takes a text apart that begins with a number; undefined where it does not, or where a fraction is none of a ruler's. */
export function numberShape(text: string): NumberShape | undefined {
  if (text.length > longestNumber) return undefined;
  const plain = text.trim();
  const fraction = fractionPattern.exec(plain)?.groups;
  if (fraction) {
    const part = fraction.fraction
      ? fractionSigns[fraction.fraction]!
      : Number(fraction.top) / Number(fraction.bottom);
    // 45/60 is two counts, not a part of an inch.
    if (fraction.bottom !== undefined && (!rulerParts.has(Number(fraction.bottom)) || part >= 1))
      return undefined;
    return shape(fraction, fraction.whole ?? '0', part);
  }
  const number = numberPattern.exec(plain)?.groups;
  return number && shape(number, number.digits!.replace(/[ \u00a0\u2009\u202f'\u2019]/g, ''), 0);
}

function shape(groups: Record<string, string | undefined>, digits: string, fraction: number): NumberShape {
  const negative = groups.sign !== '' && groups.sign !== '+';
  return { negative, digits, exponent: groups.exponent ?? '', fraction, rest: (groups.rest ?? '').trim() };
}

/**
 * The decimal marks under which the digits make sense: both for whole numbers and, the very doubt, for `1,234` and `1.234`;
 * one for `1,5`, `0,125`, `1,234.5` and `1,234,567`; none for `1.2.3`.
 */
export function possibleMarks(digits: string): DecimalMark[] {
  return ([',', '.'] as const).filter((mark) => decimalText(digits, mark) !== undefined);
}

/** The digits as JavaScript writes numbers, if they make sense under the decimal mark. */
export function decimalText(digits: string, mark: DecimalMark): string | undefined {
  const thousands = mark === '.' ? ',' : '.';
  const [whole = '', decimals, ...more] = digits.split(mark);
  if (more.length > 0 || decimals?.includes(thousands)) return undefined;
  const groups = whole.split(thousands);
  const sound =
    groups.length === 1 ||
    (/^[1-9]\d{0,2}$/.test(groups[0]!) && groups.slice(1).every((group) => group.length === 3));
  if (!sound) return undefined;
  return decimals === undefined ? groups.join('') : `${groups.join('') || '0'}.${decimals}`;
}
