/**
 * How far a plant has grown up, by season: 0 is the season in which it came up. Invented, after common practice: few
 * spikes at first flower, full size at four, a slow decline of the number of spikes in old age.
 */
const spikes = [0, 0.3, 0.65, 0.9, 1, 1, 0.97, 0.92, 0.87];
const size = [0.3, 0.72, 0.9, 0.97, 1, 1, 1, 0.98, 0.97];
const bare = [0.4, 0.6, 0.8, 0.92, 1, 1.05, 1.1, 1.14, 1.18];

const at = (curve: readonly number[], season: number): number =>
  curve[Math.max(0, Math.min(curve.length - 1, season))]!;

/** Factors on the value at the season of reference, the fourth. */
export const spikesByAge = (season: number): number => at(spikes, season);
export const sizeByAge = (season: number): number => at(size, season);
export const bareStemByAge = (season: number): number => at(bare, season);
