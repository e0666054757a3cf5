// Ten phones that come home at the same moment and hand over 2,000 notes each, as the phone's queue sends them: 500 at a
// time, and after each batch what changed is fetched. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/server/bench/phones-hand-over.mjs FOLDER
import { act, add, openProgramme, phoneKey } from '@keelrow/records';
import { v7 as newId } from 'uuid';
import { tell, timed } from '../../records/bench/measuring.mjs';
import { startServer } from '../dist/index.js';

const phones = 10;
const notesOfEach = 2000;
const atOnce = 500;
const where = process.argv[2];
const programme = await openProgramme(where);
const office = { person: null, device: null, via: 'command' };
const codes = Array.from({ length: phones }, (_, index) => ({
  code: `bench-${process.pid}-${index}`,
  role: 'recorder',
}));
const people = await act(programme, office, (doing) => add(doing, 'people', codes));
const server = await startServer({
  programme,
  where,
  host: '127.0.0.1',
  port: 0,
  open: false,
  web: new URL('../../web/dist/app', import.meta.url).pathname,
});

async function letIn(person) {
  const { key } = await phoneKey(programme, office, person, new Date());
  const answer = await fetch(`${server.address}/api/sign-in`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ key, device: 'bench' }),
  });
  const cookie = answer.headers.get('set-cookie').split(';')[0];
  return async (path, body) => {
    const asked = body
      ? {
          method: 'POST',
          body: JSON.stringify(body),
          headers: { cookie, 'content-type': 'application/json' },
        }
      : { headers: { cookie } };
    const given = await fetch(`${server.address}/api/phone/${path}`, asked);
    if (!given.ok) throw new Error(`${path} answered ${given.status}: ${await given.text()}`);
    return given.json();
  };
}

const asks = await Promise.all(people.map(letIn));
const first = await timed(() => asks[0]('holdings'));
const { plants, traits, upTo, notes } = first.result;
const measures = traits.filter(
  ({ sort, least, most }) => sort === 'measured' && least !== null && most !== null,
);
const on = `${new Date().getUTCFullYear() - 1}-06-15`;
const factsOf = (phone) =>
  Array.from({ length: notesOfEach }, (_, index) => {
    const { id: trait, least, most } = measures[index % measures.length];
    const plant = plants[(phone * 7919 + index) % plants.length].id;
    const value = Math.round(least + ((index * 31) % 100) * ((most - least) / 100));
    return { kind: 'notes', id: newId(), row: { plant, trait, on, value } };
  });
const waiting = asks.map((ask, phone) => ({ ask, facts: factsOf(phone) }));

const handOver = async ({ ask, facts }) => {
  let since = upTo;
  for (let at = 0; at < facts.length; at += atOnce) {
    const { results } = await ask('facts', {
      saidAt: new Date().toISOString(),
      facts: facts.slice(at, at + atOnce),
    });
    const refused = results.find(({ problem }) => problem !== null);
    if (refused) throw new Error(`refused: ${refused.problem}`);
  }
  ({ upTo: since } = await ask(`holdings?since=${since}`));
};
const before = process.cpuUsage();
const { seconds } = await timed(() => Promise.all(waiting.map(handOver)));
const { user, system } = process.cpuUsage(before);
const stored = await programme.read
  .selectFrom('notes')
  .select(({ fn }) => fn.countAll().as('count'))
  .where('made_act', '>', upTo)
  .executeTakeFirstOrThrow();
await server.close();
await programme.close();
if (Number(stored.count) !== phones * notesOfEach) throw new Error(`stored ${stored.count}`);
tell({
  seconds,
  cpuSeconds: (user + system) / 1e6,
  phones,
  notes: Number(stored.count),
  holdingsSeconds: first.seconds,
  plants: plants.length,
  heldNotes: notes.length,
});
