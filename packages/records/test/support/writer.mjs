// Writes notes for ever, one act at a time, and says the id of each on standard output once it is stored for good.
// Every fifth corrects the one before, so that acts of several statements are under way as well.
import { writeSync } from 'node:fs';
import { usualSettings } from '@keelrow/breeding/facts';
import { v7 as newId } from 'uuid';
import { openProgramme } from '../../dist/database/programme.js';
import { act } from '../../dist/writing/act.js';
import { add } from '../../dist/writing/add.js';
import { storeNotes } from '../../dist/writing/store-notes.js';

const [where, most = 'endless'] = process.argv.slice(2);
const by = { person: null, device: null, via: 'command' };
const programme = await openProgramme(where, usualSettings);
await act(programme, by, async (doing) => {
  const there = await doing.tx.selectFrom('traits').select('id').executeTakeFirst();
  if (there) return;
  await add(doing, 'traits', [{ code: 'height', name: 'Height', sort: 'measured', unit: 'cm' }]);
  await add(doing, 'genets', [{ code: 'A' }]);
  await add(doing, 'plants', [{ code: 'A/1', genet: 'A' }]);
});
let before = null;
for (let written = 0; most === 'endless' || written < Number(most); written++) {
  const note = { id: newId(), plant: 'A/1', trait: 'height', on: '2021-05-20', value: written };
  const replaces = before !== null && written % 5 === 4 ? { replaces: before } : {};
  const [{ problem }] = await storeNotes(programme, { ...by, mayCorrectOthers: true }, [
    { ...note, ...replaces },
  ]);
  if (problem) throw new Error(problem);
  writeSync(1, `${note.id}\n`);
  before = note.id;
}
await programme.close();
