import { usualSettings } from '@keelrow/breeding/facts';
import { act, add, openProgramme, type Programme } from '@keelrow/records';

/** Codes of a small garden for tests: one bed, plants in walking order, three counted traits between 0 and 200. */
export const smallGarden = {
  bed: 'bed-1',
  plants: ['H-1/1', 'H-2/1', 'H-3/1', 'H-4/1', 'H-5/1', 'H-6/1'],
  traits: ['one', 'two', 'three'],
} as const;

/** Makes the small garden in an empty folder or database. */
export async function makeSmallGarden(where: string): Promise<Programme> {
  const programme = await openProgramme(where, { ...usualSettings, name: 'Small Garden' });
  const genetOf = (plant: string): string => plant.split('/')[0]!;
  await act(programme, { person: null, device: null, via: 'browser' }, async (doing) => {
    await add(doing, 'places', [{ code: smallGarden.bed, sort: 'bed' }]);
    await add(
      doing,
      'genets',
      smallGarden.plants.map((plant) => ({ code: genetOf(plant) })),
    );
    await add(
      doing,
      'plants',
      smallGarden.plants.map((code, i) => ({
        code,
        genet: genetOf(code),
        place: smallGarden.bed,
        walk: i + 1,
        planted_on: '2024-04-01',
      })),
    );
    await add(
      doing,
      'traits',
      smallGarden.traits.map((code) => ({
        code,
        name: `Trait ${code}`,
        sort: 'counted',
        least: 0,
        most: 200,
      })),
    );
  });
  return programme;
}
