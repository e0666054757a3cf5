import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { build, giveUp, install, root } from './steps.mjs';

/** Takes the pictures of docs/pictures: every screen of a fresh demo, at a desk and on a phone. */
install();
build();
const browserPath = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
  existsSync,
);
if (!browserPath) giveUp('No Chromium was found: install it (Debian and Ubuntu: apt-get install chromium).');

const pictures = join(root, 'docs/pictures');
mkdirSync(pictures, { recursive: true });
const data = mkdtempSync(join(tmpdir(), 'keelrow-pictures-'));
const server = spawn(process.execPath, [
  join(root, 'packages/cli/bin/keelrow.mjs'),
  'demo',
  '--data',
  data,
  '--port',
  '0',
]);
const address = await new Promise((resolve) => {
  server.stdout.on('data', (bytes) => {
    const found = /Open (http\S+)/.exec(bytes.toString());
    if (found) resolve(new URL(found[1]).origin);
  });
});

const api = async (path) => (await fetch(address + path)).json();
/** The named genet with most notes: its page has something to show. */
const { rows } = await api('/api/plants?sort=notes&descending=true&limit=200');
const genet = rows.find(({ name, seedParent }) => name && seedParent) ?? rows[0];
const bed = (await api('/api/beds')).beds
  .toSorted((a, b) => b.plants - a.plants)
  .find(({ code }) => code.startsWith('trial'));

const brief = (await api('/api/records/briefs?limit=1')).rows[0];
const page = (kind, code) => `/${kind}/${encodeURIComponent(code)}`;

/** Path of each screen; what is done there first, and what the picture begins with where that is not its top. */
const screens = {
  plants: { path: '/plants' },
  plant: { path: page('plants', genet.code) },
  'plant-estimates': {
    path: page('plants', genet.code),
    // A phone works estimates out only when it is asked.
    press: /^Work out \d+ trait/,
    from: '.genet-estimates',
  },
  notes: { path: `/notes?place=${encodeURIComponent(bed.code)}` },
  beds: { path: '/beds' },
  bed: { path: `${page('beds', bed.code)}?trait=spike-count` },
  compare: { path: '/compare?trait=spike-count' },
  trait: { path: '/traits/spike-length' },
  winters: { path: '/winters' },
  briefs: { path: '/briefs' },
  brief: { path: page('briefs', brief.code) },
  labels: { path: `/labels?of=plants&place=${encodeURIComponent(bed.code)}` },
  walk: { path: '/walk/new', steps: beginWalk },
  import: { path: '/import' },
  programme: { path: '/programme' },
};

/** Fetches the garden and begins a round of two traits in the bed. */
async function beginWalk(view) {
  await view.getByRole('button', { name: new RegExp(`^${bed.name ?? bed.code}`) }).click();
  for (const trait of ['Height to the spike tip', 'Spikes', 'First flower'])
    await view.getByRole('button', { name: new RegExp(`^${trait} `) }).click();
  await view.getByRole('button', { name: 'Start the walk' }).click();
  await view.locator('.walk-code').waitFor();
}

/** Long enough for all traits of a plant on a slow computer. */
const patience = { timeout: 600_000 };

/** Waits until nothing is fetched or worked out any more, and says which screen's work went wrong. */
async function settled(view, name) {
  await view.waitForLoadState('networkidle');
  await view.waitForFunction(() => !document.querySelector('.loading, progress'), undefined, patience);
  // What is done begins the next work in turn only after it was shown.
  await view.waitForTimeout(400);
  if (await view.locator('.loading, progress').count()) return settled(view, name);
  if (await view.locator('.problem').count())
    giveUp(`${name}: ${await view.locator('.problem').textContent()}`);
}

const sizes = { desk: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };
const args =
  '--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync';
const browser = await chromium.launch({ executablePath: browserPath, args: args.split(' ') });
for (const [size, viewport] of Object.entries(sizes)) {
  const context = await browser.newContext({ viewport, hasTouch: size === 'phone', locale: 'en-GB' });
  const view = await context.newPage();
  for (const [name, { path, press, from, steps }] of Object.entries(screens)) {
    await view.goto(address + path);
    await settled(view, name);
    const button = press && view.getByRole('button', { name: press });
    if (button && (await button.count())) {
      await button.click();
      await settled(view, name);
    }
    if (steps) await steps(view);
    if (from)
      await view
        .locator(from)
        .evaluate((element) => element.closest('section, main').scrollIntoView({ block: 'start' }));
    await view.screenshot({ path: join(pictures, `${name}-${size}.png`) });
  }
  await context.close();
}
await browser.close();
server.kill('SIGTERM');
await new Promise((resolve) => server.once('exit', resolve));
rmSync(data, { recursive: true, force: true });
