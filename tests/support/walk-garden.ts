import { usualSettings } from '@keelrow/breeding/facts';
import { act, add, openProgramme, type Programme } from '@keelrow/records';

/** A bed of three rows of ten plants, numbered to and fro, with traits of every sort and last year’s counts and heights. */
export const walkGarden = {
  bed: 'bed-4',
  plants: Array.from({ length: 30 }, (_, index) => `2031-004-${index + 1}/1`),
  recorder: 'MK',
} as const;

const traits = [
  { code: 'spike-count', name: 'Spikes', sort: 'counted', least: 0, most: 150 },
  {
    code: 'height',
    name: 'Height',
    sort: 'measured',
    unit: 'cm',
    least: 1,
    most: 250,
    how: 'ground to the tip',
  },
  { code: 'first-flower', name: 'First flower', sort: 'staged' },
  { code: 'lodging', name: 'Lodging', sort: 'scored', least: 1, most: 9, how: '1 upright, 9 flat' },
  { code: 'stem-colour', name: 'Stem colour', sort: 'classed', classes: ['green', 'flushed', 'dark'] },
  { code: 'banner-colour', name: 'Banner', sort: 'coloured' },
  { code: 'cut-back', name: 'Cut back', sort: 'dated' },
  { code: 'picture', name: 'Picture', sort: 'pictured' },
  { code: 'memo', name: 'Memo', sort: 'spoken' },
  { code: 'remark', name: 'Remark', sort: 'written' },
];

/** Spikes and height of a plant last year. */
export const lastYear = (index: number): { readonly spikes: number; readonly height: number } => ({
  spikes: 8 + (index % 7),
  height: 100 + 3 * (index % 11),
});

/** Makes the garden in an empty folder; last year is the year before the given one. */
export async function makeWalkGarden(
  where: string,
  year: number,
  units: 'metric' | 'us' = 'metric',
): Promise<Programme> {
  const programme = await openProgramme(where, { ...usualSettings, units, name: 'Walk Garden' });
  await act(programme, { person: null, device: null, via: 'browser' }, async (doing) => {
    await add(doing, 'people', [{ code: walkGarden.recorder, name: 'Mara Kestrel', role: 'recorder' }]);
    await add(doing, 'places', [
      { code: walkGarden.bed, name: 'Bed 4', sort: 'bed', length_m: 7, width_m: 2, east_m: 0, north_m: 0 },
    ]);
    await add(
      doing,
      'genets',
      walkGarden.plants.map((plant) => ({ code: plant.split('/')[0]! })),
    );
    await add(
      doing,
      'plants',
      walkGarden.plants.map((code, index) => {
        const [row, at] = [Math.floor(index / 10), index % 10];
        return {
          code,
          genet: code.split('/')[0]!,
          place: walkGarden.bed,
          walk: index + 1,
          east_m: 0.5 + 0.6 * (row % 2 === 0 ? at : 9 - at),
          north_m: 0.5 + 0.5 * row,
          planted_on: `${year - 3}-04-20`,
        };
      }),
    );
    await add(doing, 'traits', traits);
    await add(
      doing,
      'notes',
      walkGarden.plants.flatMap((plant, index) => [
        { plant, trait: 'spike-count', on: `${year - 1}-06-10`, value: lastYear(index).spikes },
        { plant, trait: 'height', on: `${year - 1}-06-12`, value: lastYear(index).height },
      ]),
    );
  });
  return programme;
}
