// How quickly the server answers while it fits: asks for lists, a page and the notes of a bed over and over, as people at work
// do, until an estimate begun beforehand is done. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/server/bench/answer-while-fitting.mjs FOLDER TRAIT
import { openProgramme } from '@keelrow/records';
import { tell } from '../../records/bench/measuring.mjs';
import { startServer } from '../dist/index.js';

const [where, trait] = process.argv.slice(2);
const programme = await openProgramme(where);
const server = await startServer({
  programme,
  where,
  host: '127.0.0.1',
  port: 0,
  open: true,
  web: new URL('../../web/dist/app', import.meta.url).pathname,
});
const { origin } = new URL(server.address);
const ask = async (path, body) => {
  const asked = body
    ? { method: 'POST', body: JSON.stringify(body), headers: { 'content-type': 'application/json', origin } }
    : {};
  const answer = await fetch(`${origin}/api/${path}`, asked);
  if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
  return answer.json();
};

// The first list after a change reads the plants anew; the lists timed come after it.
const { rows } = await ask('plants?limit=50');
const { beds } = await ask('beds');
const busiest = beds.toSorted((a, b) => b.plants - a.plants)[0].code;
const asked = [
  'programme',
  'traits',
  'plants?limit=200',
  'plants?limit=200&search=x21',
  'plants?limit=200&sort=notes&descending=true',
  ...rows.slice(0, 5).map(({ code }) => `genets/${encodeURIComponent(code)}`),
  `note-grid?place=${encodeURIComponent(busiest)}&year=2025`,
];
const round = async (times) => {
  for (const path of asked) {
    const start = performance.now();
    await ask(path);
    times.push(performance.now() - start);
  }
};
const quietly = [];
for (let turn = 0; turn < 5; turn++) await round(quietly);

const { job } = await ask('estimates', { trait });
const began = performance.now();
const meanwhile = [];
let state = 'running';
while (['waiting', 'running'].includes(state)) {
  await round(meanwhile);
  state = (await ask(`jobs/${job}`)).state;
}
const seconds = (performance.now() - began) / 1000;
if (state !== 'done') throw new Error(`the estimate ended as “${state}”`);
await server.close();
await programme.close();

const share = (times, part) => times.toSorted((a, b) => a - b)[Math.ceil(part * times.length) - 1];
const told = (times) => ({ calls: times.length, median: share(times, 0.5), p95: share(times, 0.95) });
tell({ trait, seconds, quietly: told(quietly), meanwhile: told(meanwhile) });
