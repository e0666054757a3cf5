import type { WinterSurvival } from '@keelrow/breeding/evaluation';

/**
 * Each of these starts a job; its result is named behind it.
 * POST /api/estimates { trait }: EstimatesReport
 * POST /api/estimates/compare { trait, a, b }: PairCompared (a, b: ids of genets)
 * POST /api/estimates/information { trait, genet }: InformationParts
 * POST /api/estimates/best { trait, k }: BestOf
 * POST /api/estimates/model { trait }: TraitModel
 * POST /api/estimates/winters: WintersReport
 */
export type {
  BestOf,
  BreedingValue,
  EstimatesReport,
  GenetEstimate,
  InformationParts,
  InformationSource,
  NoteResidual,
  PairCompared,
  ScaleName,
  Share,
  TraitModel,
  WinterChance,
  WinterCurve,
  WinterSurvival,
} from '@keelrow/breeding/evaluation';

/** How plants come through winters, its genets with what people call them. */
export interface WintersReport extends Omit<WinterSurvival, 'genets'> {
  readonly genets: readonly (WinterSurvival['genets'][number] & {
    readonly code: string;
    readonly name: string | null;
    /** Plants of it that stand today. */
    readonly alive: number;
  })[];
}
