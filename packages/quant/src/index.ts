export { erfc } from './distributions/erfc.ts';
export { normalCdf, normalDensity, normalQuantile } from './distributions/normal.ts';
export { type Random, seededRandom } from './random/seeded-random.ts';
