/**
 * Inbreeding of a genet beyond that of the wild plants of its group. Where founders of a group are kin of one another
 * (γ = 2θ), each of them already counts as inbred by γ/2, which tells nobody anything; what a self or a cross of sibs adds
 * is F' = (F − γ/2)/(1 − γ/2), Wright's relation of the inbreeding within and between groups (S. Wright 1951, Annals of
 * Eugenics 15:323-354). Never below 0: a cross between groups is not inbred.
 */
export function inbredBeyond(inbreeding: number | null, gamma: number | null): number {
  const base = (gamma ?? 0) / 2;
  if (inbreeding === null || base >= 1) return 0;
  return Math.max(0, (inbreeding - base) / (1 - base));
}
