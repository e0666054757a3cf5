/**
 * Check character by ISO/IEC 7064, hybrid system MOD 37,36, over letters and digits: a number read aloud, typed or half
 * washed off is caught if one character of it is wrong. It is printed after a code and set apart from it, and is no
 * part of the code.
 */

const alphabet = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/**
 * The check character of a code: 0-9 or A-Z. Hyphens, slashes and all else but the letters A-Z and digits are skipped;
 * capitals do not matter. Null where the code holds no letter or digit to check.
 */
export function checkCharacter(code: string): string | null {
  const values = [...code.toUpperCase()]
    .map((character) => alphabet.indexOf(character))
    .filter((v) => v >= 0);
  if (values.length === 0) return null;
  let product = 36;
  for (const value of values) product = (2 * ((product + value) % 36 || 36)) % 37;
  return alphabet[(37 - product) % 36]!;
}
