import { phone } from './store.ts';

/** After silence it is tried again by itself, first soon, then less often. */
const firstPause = 5_000;
const longestPause = 60_000;
/** Holdings younger than this are not asked for again by coming back to the app. */
const freshFor = 2 * 60_000;

let timer: ReturnType<typeof setTimeout> | undefined;
let pause = firstPause;
let fetchedAt = Number.NEGATIVE_INFINITY;

async function anythingWaits(): Promise<boolean> {
  const { facts, photos } = phone.db;
  return phone.db.reliably(async () => {
    if ((await facts.where('state').equals('waiting').count()) > 0) return true;
    return (await photos.filter(({ problem }) => problem === null).count()) > 0;
  });
}

/** Tries again later where something still waits; a page in the background waits to be looked at. */
async function plan(): Promise<void> {
  clearTimeout(timer);
  const { busy, shutOut, trouble } = phone.state();
  if (busy || shutOut || document.visibilityState === 'hidden') return;
  if (!(await anythingWaits().catch(() => false))) {
    pause = firstPause;
    return;
  }
  if (trouble === null) pause = firstPause;
  clearTimeout(timer);
  timer = setTimeout(() => void phone.handOver(), pause);
  pause = Math.min(longestPause, pause * 2);
}

async function fetchChanges(): Promise<void> {
  if (performance.now() - fetchedAt < freshFor) return;
  const held = await phone.db.reliably(() => phone.db.held.count()).catch(() => 0);
  // A browser that never looked at the garden off line, such as the office's, fetches none.
  if (held === 0) return;
  await phone.fetchHoldings();
  fetchedAt = performance.now();
}

function comeBack(): void {
  if (document.visibilityState === 'hidden') return;
  pause = firstPause;
  void phone
    .handOver()
    .then(fetchChanges)
    .catch(() => undefined);
}

/**
 * Hands over on start, when the network comes back, and when the app is looked at again: browsers on phones wake
 * nothing in the background. Entering hands over by itself.
 */
export function startHandingOver(): void {
  addEventListener('online', comeBack);
  addEventListener('pageshow', comeBack);
  document.addEventListener('visibilitychange', comeBack);
  let wasBusy = false;
  phone.subscribe(() => {
    const { busy } = phone.state();
    if (wasBusy && !busy) void plan();
    wasBusy = busy;
  });
  void phone.learnPersisted();
  comeBack();
}
