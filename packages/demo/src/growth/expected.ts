import { sizeByAge } from './age.ts';
import type { Season } from './seasons.ts';

/** What a year, a place and a plant's age come to, before its own luck. */
export interface Conditions {
  /** Seasons since the plant came up. */
  readonly season: number;
  readonly weather: Pick<Season, 'size' | 'lodging'>;
  /** As `growthAt` has it. */
  readonly place: { readonly size: number; readonly damp: number };
}

/** How large a plant is under these conditions, as a factor on a grown one's in the middle bed and year. */
export const sizeUnder = ({ season, weather, place }: Conditions): number =>
  sizeByAge(season) * weather.size * place.size;

/** Values of a plant from the genetic value and its size or conditions. */
export const heightAt = (genetic: number, size: number): number => genetic * size;
export const spikeLengthAt = (genetic: number, size: number): number => genetic * (0.4 + 0.6 * size);
export const lodgingUnder = (genetic: number, { season, weather, place }: Conditions): number =>
  genetic + weather.lodging + 1.2 * place.damp + (season > 5 ? 0.5 : 0);
