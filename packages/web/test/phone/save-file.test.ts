import { describe, expect, test } from 'vitest';
import { outOfReach } from '../../src/api/api-error.ts';
import { newPhone, StubServer } from './stub-server.ts';

async function phoneWithWaiting() {
  const server = new StubServer();
  server.before = () => {
    throw outOfReach();
  };
  const { phone } = newPhone(server);
  await phone.enter([
    {
      kind: 'notes',
      row: { plant: 'p1', trait: 'height', on: '2031-05-20', value: 92, remark: '=SUM(A1), "tall"' },
      words: '2031-004-3/1 Height 92 cm',
    },
    {
      kind: 'notes',
      row: { plant: 'p1', trait: 'colour', on: '2031-05-20', value: { l: 45, a: 5, b: -22 } },
      words: '2031-004-3/1 Colour',
    },
  ]);
  const { hash } = await phone.keepPhoto(new Uint8Array([0xff, 0xd8, 0xff, 1]).buffer, {
    mediaType: 'image/jpeg',
    words: '2031-004-3/1 Flower',
  });
  await phone.handOver();
  return { phone, hash };
}

describe('what waits, saved to a file', () => {
  test('is taken in by another phone under the same ids, and once however often', async () => {
    const { phone, hash } = await phoneWithWaiting();
    const text = await (await phone.saveToFile()).text();
    const server = new StubServer();
    const other = newPhone(server).phone;
    expect(await other.takeSavedFile(text)).toEqual({ facts: 2, photos: 1 });
    await other.handOver();
    await other.photosAtRest();
    expect([...server.kept.keys()]).toEqual((await phone.notYetTaken()).map(({ id }) => id));
    expect([...server.photos.keys()]).toEqual([hash]);
    expect(await other.takeSavedFile(text)).toMatchObject({ facts: 0 });
  });

  test('is a table for people and for import, with formulas made harmless', async () => {
    const { phone } = await phoneWithWaiting();
    expect(await (await phone.saveToFile('csv')).text()).toBe(
      'plant,trait,on,at,state,value,photo,by,remark\r\n' +
        'p1,height,2031-05-20,,,92,,,"\'=SUM(A1), ""tall"""\r\n' +
        'p1,colour,2031-05-20,,,45 5 -22,,,\r\n',
    );
  });

  test.each([
    ['{"file":"another"}', 'not a file of waiting notes'],
    ['not JSON', 'not a file of waiting notes'],
    ['{"file":"keelrow-waiting-notes","version":2,"facts":[],"photos":[]}', 'newer Keelrow'],
  ])('another file is refused in words: %s', async (text, words) => {
    const { phone } = newPhone(new StubServer());
    await expect(phone.takeSavedFile(text)).rejects.toThrow(words);
  });
});
