import { mkdirSync, mkdtempSync, rmSync, statfsSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { usualSettings } from '@keelrow/breeding/facts';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { folderWarnings } from '../src/database/folder.ts';
import { openProgramme } from '../src/index.ts';
import { keelrow } from './support/command.ts';
import { plantSmallGarden } from './support/small-files.ts';

vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>();
  const pretended = (path: string) =>
    path.includes('on-another-machine') ? { type: 0x6969 } : real.statfsSync(path);
  return { ...real, statfsSync: pretended };
});

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'keelrow-folders-'));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('a folder where a programme is not safe', () => {
  it('is warned of when a program synchronises it, by its name, a mark or a link', () => {
    for (const name of ['Dropbox', 'OneDrive - Alder County', 'Google Drive', 'Nextcloud', 'iCloud Drive']) {
      expect(folderWarnings(join(root, name, 'garden'))).toEqual([
        expect.stringContaining(`synchronised (${name})`),
      ]);
    }
    const marked = join(root, 'shared-papers');
    mkdirSync(join(marked, '.stfolder'), { recursive: true });
    mkdirSync(join(marked, 'garden'));
    expect(folderWarnings(join(marked, 'garden'))).toEqual([
      expect.stringContaining('synchronised (.stfolder)'),
    ]);
    symlinkSync(join(marked, 'garden'), join(root, 'link'));
    expect(folderWarnings(join(root, 'link'))).toHaveLength(1);
    expect(folderWarnings(join(root, 'garden'))).toEqual([]);
  });

  it('is warned of when it lies on another machine', () => {
    // source: Linux, statfs(2): 0x6969 is NFS
    mkdirSync(join(root, 'on-another-machine'));
    expect(folderWarnings(join(root, 'on-another-machine', 'garden'))).toEqual([
      expect.stringMatching(/network drive \(NFS\).*PostgreSQL/),
    ]);
    expect(statfsSync(root).type).not.toBe(0x6969);
  });

  it('is warned of by the command, which does its work all the same', async () => {
    const folder = join(root, 'Dropbox');
    const programme = await openProgramme(folder, usualSettings);
    await plantSmallGarden(programme);
    await programme.close();
    const sheet = join(root, 'notes.csv');
    writeFileSync(sheet, 'plant,trait,on,value\nA/1,height,2021-05-20,41\n');
    const { status, said } = keelrow('import', 'notes', sheet, '--data', folder);
    expect(status).toBe(0);
    expect(said).toMatch(/folder that is synchronised \(Dropbox\).*Keep it elsewhere/);
  });
});
