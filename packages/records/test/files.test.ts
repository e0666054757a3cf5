import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import {
  keepPhoto,
  listRecords,
  readPhoto,
  readProfiles,
  takeProfileTraits,
  writeProfile,
} from '../src/index.ts';

const by = { person: null, device: null, via: 'command' as const };
/** A picture of one pixel: the smallest PNG that there is (PNG specification, third edition, chunks IHDR, IDAT, IEND). */
const pixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII=',
  'base64',
);

onBothStores('files beside the store', (store) => {
  it('keeps a photo once, under the SHA-256 of its bytes, and tells a damaged one', async () => {
    const programme = await store.make();
    if (programme.folder === null) {
      await expect(keepPhoto(programme, pixel)).rejects.toThrow(/no folder for photos/);
      return;
    }
    const kept = await keepPhoto(programme, pixel);
    expect(kept).toEqual({
      hash: createHash('sha256').update(pixel).digest('hex'),
      mediaType: 'image/png',
      bytes: pixel.length,
    });
    expect(await keepPhoto(programme, pixel)).toEqual(kept);
    expect((await readPhoto(programme, kept.hash)).bytes.equals(pixel)).toBe(true);
    writeFileSync(
      join(programme.folder, 'photos', kept.hash.slice(0, 2), kept.hash),
      Buffer.concat([pixel, Buffer.from('x')]),
    );
    await expect(readPhoto(programme, kept.hash)).rejects.toThrow(/damaged/);
    await expect(keepPhoto(programme, Buffer.from('no picture'))).rejects.toThrow(/no picture/);
    // A film box of ISO/IEC 14496-12 by its brand: sound of phones is taken, pictures that few browsers show are not.
    const boxed = (brand: string) => Buffer.from(`\0\0\0\x18ftyp${brand}\0\0\0\0`, 'latin1');
    expect((await keepPhoto(programme, boxed('mp42'))).mediaType).toBe('audio/mp4');
    await expect(keepPhoto(programme, boxed('heic'))).rejects.toThrow(/no picture/);
    // An EBML header (RFC 8794, section 11.2.1).
    expect((await keepPhoto(programme, Buffer.from([0x1a, 0x45, 0xdf, 0xa3, 0x9f]))).mediaType).toBe(
      'audio/webm',
    );
    await expect(readPhoto(programme, '../../etc/passwd')).rejects.toThrow(/no such photo/);
  });

  it('begins with the shipped profiles, takes their traits once and keeps a changed one', async () => {
    const programme = await store.make();
    const profiles = readProfiles(programme);
    expect(profiles.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['false-indigo', 'garden-lupin', 'hardy-perennial']),
    );
    expect(profiles.flatMap(({ problems }) => problems)).toEqual([]);
    const made = await takeProfileTraits(programme, by, 'garden-lupin');
    expect(made.length).toBeGreaterThan(10);
    expect((await listRecords(programme.read, 'traits', {})).total).toBe(made.length);
    expect(await takeProfileTraits(programme, by, 'garden-lupin')).toEqual([]);
    if (programme.folder === null) return;

    const text = profiles.find(({ name }) => name === 'garden-lupin')!.text;
    expect(() => writeProfile(programme, 'garden-lupin', text.replace('"traits"', '"trait"'))).toThrow(
      /traits/,
    );
    expect(() => writeProfile(programme, 'garden-lupin', '{')).toThrow(/not JSON/);
    expect(() => writeProfile(programme, '../evil', text)).toThrow(/no name for a profile/);
    const changed = text.replace(/"name": "[^"]*"/, '"name": "Our lupins"');
    writeProfile(programme, 'garden-lupin', changed);
    expect(readFileSync(join(programme.folder, 'profiles', 'garden-lupin.json'), 'utf8')).toBe(changed);
    expect(readProfiles(programme).find(({ name }) => name === 'garden-lupin')!.profile!.name).toBe(
      'Our lupins',
    );
  });
});
