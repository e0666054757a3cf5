/**
 * Chance that a Beta(a, b) share is above ½; a, b > 0, their sum below 900. Of the two halves' integrals
 * B_½(a, b) = ½ᵃ⁺ᵇ F(a+b, 1; a+1; ½)/a (DLMF 8.17.8) the power of ½ is common, and the series has positive terms only, so
 * neither gamma functions nor differences are needed.
 */
export function upperHalfOfBeta(a: number, b: number): number {
  const lower = series(a, b) / a;
  const upper = series(b, a) / b;
  return upper / (lower + upper);
}

/** F(a+b, 1; a+1; ½): each term (a+b+n)/(a+1+n)/2 times the one before. */
function series(a: number, b: number): number {
  let [sum, term] = [1, 1];
  for (let n = 0; ; n++) {
    const ratio = (a + b + n) / (2 * (a + 1 + n));
    term *= ratio;
    sum += term;
    if (ratio < 0.75 && term < sum * 1e-17) return sum;
  }
}
