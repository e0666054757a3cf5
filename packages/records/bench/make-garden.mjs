// Simulates a garden and stores it. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/records/bench/make-garden.mjs FOLDER GENETS
import { usualSettings } from '@keelrow/breeding/facts';
import { fillWithDemo, openProgramme } from '../dist/index.js';
import { tell, timed } from './measuring.mjs';

const [folder, genets] = process.argv.slice(2);
const programme = await openProgramme(folder, usualSettings);
const { result, seconds } = await timed(() =>
  fillWithDemo(
    programme,
    { person: null, device: null, via: 'demo' },
    {},
    { seed: 1, genets: Number(genets) },
  ),
);
await programme.close();
const records = Object.values(result).reduce((sum, count) => sum + count, 0);
tell({ seconds, genets: result.genets, plants: result.plants, notes: result.notes, records });
