// Takes 100,000 notes in from a CSV file into a garden that is there. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/records/bench/import-notes.mjs FOLDER FILE
import { createWriteStream } from 'node:fs';
import { openImport, openProgramme, takeIn } from '../dist/index.js';
import { writeCsv } from '../dist/tables/index.js';
import { tell, timed } from './measuring.mjs';

const wanted = 100_000;
const [folder, file] = process.argv.slice(2);
const programme = await openProgramme(folder);
const plants = (await programme.read.selectFrom('plants').select('code').orderBy('code').execute()).map(
  ({ code }) => code,
);
const measures = [
  ['height', 60, 60],
  ['width', 40, 60],
  ['spike-length', 15, 30],
  ['spike-count', 2, 20],
];
const columns = ['plant', 'trait', 'on', 'value', 'remark'].map((header) => ({ header }));

function* rows() {
  for (let at = 0; at < wanted; at++) {
    const [trait, least, span] = measures[at % measures.length];
    const round = Math.floor(at / (measures.length * plants.length));
    const plant = plants[Math.floor(at / measures.length) % plants.length];
    const day = new Date(Date.UTC(2025, 6, 1 + round)).toISOString().slice(0, 10);
    yield [plant, trait, day, least + ((at * 7919) % span), at % 9 === 0 ? 'after rain' : null];
  }
}
await writeCsv(columns, rows(), createWriteStream(file));

const told = [];
const { result, seconds } = await timed(async () => {
  const part = await openImport(programme, file, { kind: 'notes' });
  return takeIn(programme, [part], {
    by: { person: null, device: null, via: 'import' },
    store: true,
    onProgress: (share, step) =>
      told.push({ share, step, mb: Math.round(process.memoryUsage.rss() / 2 ** 20) }),
  });
});
await programme.close();
if (result.stored.notes !== wanted)
  throw new Error(`stored ${result.stored.notes}: ${JSON.stringify(result.problems[0])}`);
// How memory moved on the way: a tenth of the progress told, evenly.
const every = Math.max(1, Math.floor(told.length / 10));
tell({
  seconds,
  rows: wanted,
  rowsPerSecond: wanted / seconds,
  progressTold: told.length,
  sample: told.filter((_, index) => index % every === 0),
});
