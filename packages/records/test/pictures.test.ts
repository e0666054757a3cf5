import { v7 as newId } from 'uuid';
import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import { act, add, readPictures } from '../src/index.ts';

const by = { person: null, device: null, via: 'command' as const };
const hash = (letter: string): string => letter.repeat(64);
const all = { offset: 0, limit: 50 };

onBothStores('pictures', (store) => {
  it('are found by plant, genet, trait and day, latest first, with the remark of their note', async () => {
    const programme = await store.make();
    const [heron, finch] = [newId(), newId()];
    await act(programme, by, async (doing) => {
      await add(doing, 'people', [{ code: 'MK', role: 'owner' }]);
      await add(doing, 'genets', [
        { id: heron, code: 'G1', name: 'Slate Heron' },
        { id: finch, code: 'G2' },
      ]);
      await add(doing, 'plants', [
        { code: 'G1/1', genet: 'G1' },
        { code: 'G2/1', genet: 'G2' },
      ]);
      await add(doing, 'traits', [
        { code: 'habit', name: 'Habit', sort: 'pictured' },
        { code: 'memo', name: 'Memo', sort: 'spoken' },
      ]);
      await add(doing, 'photos', [
        {
          hash: hash('a'),
          plant: 'G1/1',
          trait: 'habit',
          taken_on: '2024-05-20',
          by: 'MK',
          media_type: 'image/jpeg',
        },
        { hash: hash('b'), plant: 'G2/1', trait: 'memo', taken_on: '2024-06-02', media_type: 'audio/webm' },
        { hash: hash('c'), plant: 'G2/1', trait: 'habit' },
      ]);
      await add(doing, 'notes', [
        {
          plant: 'G1/1',
          trait: 'habit',
          on: '2024-05-20',
          value: 'seen',
          photo: hash('a'),
          remark: 'leans after rain',
        },
      ]);
      // The second plant turned out to be the first genet, from the day of its memo on.
      await add(doing, 'identities', [
        { plant: 'G2/1', genet: 'G1', on: '2024-06-01', earlier_notes: 'stay' },
      ]);
    });
    const found = async (wanted: Partial<Parameters<typeof readPictures>[1]>) =>
      (await readPictures(programme.read, { ...all, ...wanted })).pictures.map((picture) => picture.hash[0]);

    expect(await found({})).toEqual(['b', 'a', 'c']);
    expect(await found({ genet: heron })).toEqual(['b', 'a', 'c']);
    expect(await found({ genet: finch })).toEqual([]);
    expect(await found({ search: 'heron', to: '2024-05-31' })).toEqual(['a']);
    expect(await found({ search: 'g2/1' })).toEqual(['b', 'c']);
    expect(await found({ trait: 'habit' })).toEqual(['a', 'c']);
    expect(await found({ from: '2024-06-01' })).toEqual(['b']);
    const { total, pictures } = await readPictures(programme.read, { ...all, offset: 1, limit: 1 });
    expect(total).toBe(3);
    expect(pictures[0]).toEqual({
      hash: hash('a'),
      mediaType: 'image/jpeg',
      plant: 'G1/1',
      genet: { id: heron, code: 'G1', name: 'Slate Heron' },
      trait: { code: 'habit', name: 'Habit' },
      takenOn: '2024-05-20',
      by: 'MK',
      caption: null,
      remark: 'leans after rain',
    });
  });
});
