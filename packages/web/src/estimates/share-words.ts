import type { EstimatesReport, Share } from '@keelrow/server/contract';

/** `34% (give or take 5)`. */
export function shareShown({ value, se }: Share): string {
  const per = Math.round(value * 100);
  return se === null ? `${per}%` : `${per}% (give or take ${Math.max(1, Math.round(se * 100))})`;
}

/** Heritability, repeatability and accuracy, each as a plain sentence. */
export function shareSentences({
  heritability,
  repeatability,
  accuracy,
}: Pick<EstimatesReport, 'heritability' | 'repeatability' | 'accuracy'>): string[] {
  return [
    heritability &&
      `${shareShown(heritability)} of the differences among single notes is handed on by parents.`,
    repeatability &&
      `${shareShown(repeatability)} of the differences among single notes lies between genets; the rest is chance and circumstance.`,
    accuracy !== null &&
      `Estimates and true values of the noted genets should go together with a correlation of about ${accuracy.toFixed(2)} (1 would be perfect).`,
  ].filter((sentence) => sentence !== null && sentence !== false);
}
