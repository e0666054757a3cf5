import type { Row } from '@keelrow/breeding/facts';
import { shippedProfiles } from '@keelrow/breeding/profiles';

const profile = shippedProfiles.find(({ profile: name }) => name === 'garden-lupin')!;

/** The demo notes the traits of the garden lupin's profile. */
export const traits: readonly Row<'traits'>[] = profile.traits.map((trait) => ({
  code: trait.code,
  name: trait.name,
  sort: trait.sort,
  unit: trait.unit ?? null,
  least: trait.least ?? null,
  most: trait.most ?? null,
  classes: trait.classes ?? null,
  bbch: trait.bbch ?? null,
  wanted: trait.wanted ?? null,
  how: trait.how ?? null,
}));

const byCode = new Map(traits.map((trait) => [trait.code, trait]));

/** Whether a value lies within its trait's limits, so that it can be stored at all. */
export function storable(code: string, value: number): boolean {
  const trait = byCode.get(code);
  return value >= (trait?.least ?? -Infinity) && value <= (trait?.most ?? Infinity);
}

/** A value brought within its trait's limits. */
export function withinLimits(code: string, value: number): number {
  const trait = byCode.get(code);
  return Math.min(trait?.most ?? Infinity, Math.max(trait?.least ?? -Infinity, value));
}
