/**
 * Each of these starts a job; its result is named behind it.
 * POST /api/estimates { trait }: EstimatesReport
 * POST /api/estimates/compare { trait, a, b }: PairCompared (a, b: ids of genets)
 * POST /api/estimates/information { trait, genet }: InformationParts
 * POST /api/estimates/best { trait, k }: BestOf
 * POST /api/estimates/model { trait }: TraitModel
 * POST /api/estimates/winters: WinterSurvival
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
  WinterSurvival,
} from '@keelrow/breeding/evaluation';
