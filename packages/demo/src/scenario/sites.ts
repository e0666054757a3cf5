import type { Row } from '@keelrow/breeding/facts';

export interface Site {
  readonly code: 'home' | 'hill';
  /** °C by which it is colder than the home garden. */
  readonly cooler: number;
}
export const sites: readonly [Site, Site] = [
  { code: 'home', cooler: 0 },
  { code: 'hill', cooler: 1.1 },
];

/** Sites and houses; beds are laid out as they are needed (growth/beds.ts). Positions are rounded: no such place is there. */
export const sitePlaces: readonly Row<'places'>[] = [
  {
    code: 'home',
    name: 'Ousel Bank, home garden',
    sort: 'site',
    length_m: 120,
    width_m: 80,
    walk: 1,
    latitude: 45.4,
    longitude: -122.6,
    altitude_m: 85,
  },
  {
    code: 'hill',
    name: 'Ousel Bank, hill field',
    sort: 'site',
    length_m: 90,
    width_m: 60,
    walk: 2,
    latitude: 45.4,
    longitude: -122.5,
    altitude_m: 260,
  },
  {
    code: 'glasshouse',
    name: 'Glasshouse',
    sort: 'house',
    within: 'home',
    east_m: 2,
    north_m: 70,
    length_m: 12,
    width_m: 5,
  },
  {
    code: 'frame-1',
    name: 'Cold frame by the wall',
    sort: 'house',
    within: 'home',
    east_m: 18,
    north_m: 72,
    length_m: 8,
    width_m: 1.4,
  },
  {
    code: 'frame-2',
    name: 'Deep frame',
    sort: 'house',
    within: 'home',
    east_m: 18,
    north_m: 75,
    length_m: 8,
    width_m: 1.4,
  },
];
