export {
  type ChanceBin,
  chanceBins,
  type MedianLimit,
  medianBrief,
  type PooledBin,
  pooledBins,
} from './brief-chances.ts';
export { type DemoTrait, demoTraits, truthOfDemo } from './demo-truth.ts';
export { type GenerationSums, gardenSums } from './garden-sums.ts';
export type { HeldPoint } from './held-point.ts';
export { modelTraits } from './model-traits.ts';
export { type PointsOfTrait, pointsOf, type Truth } from './points-of-evaluation.ts';
export { type Calibration, type GardenSums, type Pooled, pooled } from './pooled.ts';
