// Searches, filters and sorts the plants of a stored garden. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/server/bench/list-plants.mjs FOLDER
import { openProgramme } from '@keelrow/records';
import { tell, timed } from '../../records/bench/measuring.mjs';
import { PlantLists } from '../dist/plant-lists.js';

const programme = await openProgramme(process.argv[2]);
const lists = new PlantLists(programme);
const page = { sort: 'code', descending: false, offset: 0, limit: 200 };
const first = await timed(() => lists.list(page));
const place = first.result.places.at(-1).code;
const asked = {
  'by code': page,
  'last page': { ...page, offset: first.result.total - 200 },
  'search, one word': { ...page, search: 'x21' },
  'search, two words': { ...page, search: 'x2 007' },
  'filter by place': { ...page, place },
  'filter and search, by notes': { ...page, alive: 'yes', search: '1', sort: 'notes', descending: true },
  'sort by seed parent': { ...page, sort: 'seedParent' },
  'sort by name': { ...page, sort: 'name', descending: true },
};
const calls = 50;
const milliseconds = {};
for (const [what, wanted] of Object.entries(asked)) {
  const times = [];
  for (let call = 0; call < calls; call++) times.push((await timed(() => lists.list(wanted))).seconds * 1000);
  times.sort((a, b) => a - b);
  milliseconds[what] = { median: times[calls / 2], p95: times[Math.ceil(0.95 * calls) - 1] };
}
await programme.close();
tell({ genets: first.result.total, firstSeconds: first.seconds, milliseconds });
