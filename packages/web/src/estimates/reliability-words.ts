import type { EstimatesReport, GenetEstimate } from '@keelrow/server/contract';

/** Who tells on a genet: `own notes and kin`, `own notes`, `kin`. */
function whoTells(
  { notes }: Pick<GenetEstimate, 'notes'>,
  { used }: Pick<EstimatesReport['kinship'], 'used'>,
): string {
  if (notes === 0) return 'kin';
  return used ? 'own notes and kin' : 'own notes';
}

/** A reliability as people say it, never certain: `64%`, `less than 1%`; a dash where it can't be told. */
export function shareTold(reliability: number | null): string {
  if (reliability === null) return '–';
  if (reliability < 0.01) return '<1%';
  return `${Math.min(99, Math.round(reliability * 100))}%`;
}

/** `own notes and kin tell 64%`; what is not known is said too. */
export function tellsInWords(
  estimate: Pick<GenetEstimate, 'notes'>,
  kinship: Pick<EstimatesReport['kinship'], 'used'>,
  reliability: number | null,
): string {
  if (reliability === null) return 'how much is told of it is not known';
  const who = whoTells(estimate, kinship);
  return `${who} tell ${shareTold(reliability)}`;
}
