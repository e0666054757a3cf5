import type { Row } from '@keelrow/breeding/facts';
import type { Species } from '../genetics/species.ts';

/**
 * Where the demo's material comes from. The species are real names for the three kinds of lupin that the story needs;
 * places, people, numbers and what is said of the plants are invented.
 */
export const taxonOf: Record<Species, string> = {
  blue: 'Lupinus polyphyllus',
  yellow: 'Lupinus sulphureus',
  white: 'Lupinus albicaulis',
};
export const hybridTaxon = 'Lupinus × regalis';

export const taxa = (firstYear: number): readonly Row<'taxa'>[] => [
  { name: 'Lupinus', rank: 'genus', common_name: 'lupin', profile: 'garden-lupin' },
  {
    name: taxonOf.blue,
    authorship: 'Lindl.',
    rank: 'species',
    common_name: 'large-leaved lupin',
    profile: 'garden-lupin',
    chromosomes: 48,
    remark: 'in this invented garden: the tall blue kind',
  },
  {
    name: taxonOf.yellow,
    authorship: 'Douglas ex Hook.',
    rank: 'species',
    common_name: 'sulphur lupin',
    profile: 'garden-lupin',
    remark: 'in this invented garden: the low late yellow kind',
  },
  {
    name: taxonOf.white,
    authorship: 'Douglas',
    rank: 'species',
    common_name: 'sickle-keeled lupin',
    profile: 'garden-lupin',
    protected: true,
    protection: 'invented regional list of this demo, category B: seed by permit only',
    protection_as_of: `${firstYear - 1}-01-01`,
    remark: 'in this invented garden: the cream kind with many spikes',
  },
  {
    name: hybridTaxon,
    rank: 'hybrid',
    common_name: 'garden lupin',
    profile: 'garden-lupin',
    chromosomes: 48,
  },
];

export interface Provenance {
  readonly name: string;
  readonly species: Species;
}
export const provenances: readonly Provenance[] = [
  { name: 'northern uplands', species: 'blue' },
  { name: 'river flats', species: 'blue' },
  { name: 'coast hills', species: 'blue' },
  { name: 'dry ridges', species: 'yellow' },
  { name: 'lower valley', species: 'yellow' },
  { name: 'pumice plain', species: 'white' },
  { name: 'high meadows', species: 'white' },
];

/** Localities, each with the place of its provenance in the list above. */
export const localities: readonly (Row<'localities'> & { readonly of: number })[] = [
  locality(
    0,
    'L-01',
    'Wester Fell, wet bank by the ford',
    'ad rivulum, loco uliginoso, copiose',
    45.91,
    -121.72,
    200,
    610,
  ),
  locality(
    0,
    'L-02',
    'Crow Shoulder, felled wood',
    'open felling above Crow Sh., blue, to 5 ft.',
    45.84,
    -121.86,
    1000,
    720,
  ),
  locality(1, 'L-03', 'Osier Flats', 'gravel bars, Osier R., com.', 45.47, -122.31, 80, 22),
  locality(
    2,
    'L-04',
    'Gannet Head, north slope',
    'cliff grassland, blue w. white tip',
    45.63,
    -123.74,
    50,
    140,
  ),
  locality(3, 'L-05', 'Tinder Ridge', 'dry ridge, sulphur yellow, few', 44.97, -121.15, 120, 480),
  locality(3, 'L-06', 'Quern Gap, roadside', 'roadside bank, yellow', 44.88, -121.22, 30, 530),
  locality(4, 'L-07', 'Lower Alder, hay meadow', 'old hay meadow by the church', 45.12, -122.94, 60, 55),
  locality(5, 'L-08', 'Ashpan, pumice plain', 'in pumice, albus vel ochroleucus', 44.22, -121.58, 400, 1210),
  {
    ...locality(6, 'L-09', 'Lantern Meadows', 'high meadow E. of the lake; cream', 45.31, -121.44, 25, 1530),
    exact_place_kept_secret: true,
    remark: 'some forty plants; the landowner asks that the place be kept quiet',
  },
  {
    ...locality(
      6,
      'L-10',
      'Old Toll, upper meadow',
      'Old Toll, prat. alp., 1911',
      45.36,
      -121.39,
      3000,
      1480,
    ),
    found: 'not found',
    remark: 'from a sheet of 1911; looked for twice',
  },
];

function locality(
  of: number,
  code: string,
  name: string,
  verbatim: string,
  latitude: number,
  longitude: number,
  uncertainty: number,
  altitude: number,
): Row<'localities'> & { of: number } {
  return {
    of,
    code,
    name,
    verbatim,
    provenance: provenances[of]!.name,
    country: 'USA',
    region: 'Alder County',
    latitude,
    longitude,
    uncertainty_m: uncertainty,
    altitude_m: altitude,
    found: 'found',
  };
}

/** What came into the garden before the first season: from a locality, or from other gardens. */
export interface Arrival {
  readonly locality: string | null;
  readonly donor: string;
  readonly what: 'wild' | 'cultivars' | 'garden seed';
}
export const arrivals: readonly Arrival[] = [
  { locality: 'L-01', donor: 'Mara Kestrel, own collection', what: 'wild' },
  { locality: 'L-02', donor: 'Mara Kestrel, own collection', what: 'wild' },
  { locality: 'L-03', donor: 'Alder County seed exchange', what: 'wild' },
  { locality: 'L-04', donor: 'Gannet Head warden', what: 'wild' },
  { locality: 'L-05', donor: 'Mara Kestrel, own collection', what: 'wild' },
  { locality: 'L-06', donor: 'Tobin Ashdale, own collection', what: 'wild' },
  { locality: 'L-07', donor: 'Alder County seed exchange', what: 'wild' },
  { locality: 'L-08', donor: 'Tobin Ashdale, own collection', what: 'wild' },
  { locality: 'L-09', donor: 'Mara Kestrel, under permit', what: 'wild' },
  { locality: null, donor: 'Withy Lane Nursery', what: 'cultivars' },
  { locality: null, donor: 'Old Toll House garden', what: 'cultivars' },
  { locality: null, donor: 'Marten & Daughters', what: 'cultivars' },
  { locality: null, donor: 'Alder County seed exchange', what: 'garden seed' },
  { locality: null, donor: 'Old Toll House garden', what: 'garden seed' },
  { locality: null, donor: 'visitor, name not noted', what: 'garden seed' },
];
