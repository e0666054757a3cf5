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

const screens = {
  plants: '/plants',
  plant: `/plants/${encodeURIComponent(genet.code)}`,
  notes: `/notes?place=${encodeURIComponent(bed.code)}`,
  beds: '/beds',
  bed: `/beds/${encodeURIComponent(bed.code)}?trait=spike-count`,
  compare: '/compare?trait=spike-count',
  import: '/import',
  programme: '/programme',
};
const sizes = { desk: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };
const args =
  '--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync';
const browser = await chromium.launch({ executablePath: browserPath, args: args.split(' ') });
for (const [size, viewport] of Object.entries(sizes)) {
  const context = await browser.newContext({ viewport, hasTouch: size === 'phone', locale: 'en-GB' });
  const page = await context.newPage();
  for (const [name, path] of Object.entries(screens)) {
    await page.goto(address + path);
    await page.waitForLoadState('networkidle');
    await page.waitForTimeout(name === 'compare' ? 4000 : 500);
    await page.screenshot({ path: join(pictures, `${name}-${size}.png`) });
  }
  await context.close();
}
await browser.close();
server.kill('SIGTERM');
await new Promise((resolve) => server.once('exit', resolve));
rmSync(data, { recursive: true, force: true });
