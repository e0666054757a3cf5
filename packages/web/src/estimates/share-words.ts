import type { EstimatesReport, Share } from '@keelrow/server/contract';

/** `34% (give or take 5)`. */
export function shareShown({ value, se }: Share): string {
  const per = Math.round(value * 100);
  return se === null ? `${per}%` : `${per}% (give or take ${Math.max(1, Math.round(se * 100))})`;
}

/** What these shares are of: ranking leaves out what seasons, beds, ages and people do. */
export const among = 'differences among notes of one season and bed';

/** Heritability, repeatability and accuracy, each as a plain sentence. */
export function shareSentences({
  heritability,
  repeatability,
  accuracy,
}: Pick<EstimatesReport, 'heritability' | 'repeatability' | 'accuracy'>): string[] {
  return [
    heritability && `${shareShown(heritability)} of the ${among} is handed on by parents.`,
    repeatability &&
      `${shareShown(repeatability)} of the ${among} lies between genets; the rest is chance and circumstance.`,
    accuracy !== null &&
      `Estimates and true values of the noted genets should go together with a correlation of about ${accuracy.toFixed(2)} (1 would be perfect).`,
  ].filter((sentence) => sentence !== null && sentence !== false);
}
