import type { ModelTrait } from '../model-world/index.ts';

const trait = (name: string, variances: ModelTrait['variances']): ModelTrait => ({
  name,
  mean: 100,
  variances,
});

/**
 * Traits of the model world that estimates are held against, of much, middling and little heritability: 0.42, 0.26 and 0.13
 * of the variance between single notes within season and bed.
 */
export const modelTraits: readonly ModelTrait[] = [
  trait('strongly inherited', { additive: 40, genet: 10, plant: 10, bed: 5, residual: 35 }),
  trait('middling', { additive: 25, genet: 10, plant: 15, bed: 5, residual: 45 }),
  trait('weakly inherited', { additive: 12, genet: 5, plant: 13, bed: 5, residual: 65 }),
];
