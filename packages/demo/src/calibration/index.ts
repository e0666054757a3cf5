export {
  type AskedTrait,
  briefForShare,
  type ChanceBin,
  chanceBins,
  type PooledBin,
  pooledBins,
} from './brief-chances.ts';
export { briefedGarden } from './briefed-garden.ts';
export { type BriefedTrait, briefShares, briefsHeld, type HeldBrief } from './briefs-held.ts';
export { type DemoTrait, demoTraits, truthOfDemo } from './demo-truth.ts';
export { type GenerationSums, gardenSums } from './garden-sums.ts';
export { type GrownTrait, grownTruth } from './grown-truth.ts';
export type { HeldPoint } from './held-point.ts';
export { modelTraits } from './model-traits.ts';
export { type PointsOfTrait, pointsOf, type Truth } from './points-of-evaluation.ts';
export { type Calibration, type GardenSums, type Pooled, pooled } from './pooled.ts';
