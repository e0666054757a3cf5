import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Programme } from '@keelrow/records';
import { type RunningServer, startServer } from '@keelrow/server';
import type { Page, Route } from 'playwright-core';
import { build } from 'vite';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { breaches, desk, hasBrowser, type OpenBrowser, openBrowser, phone } from '../support/browser.ts';
import { built } from '../support/built.ts';
import { KillableKeelrow } from '../support/killable-keelrow.ts';
import { makeSmallGarden, smallGarden } from '../support/small-garden.ts';
import { newPlace } from '../support/stores.ts';

const gridAt = (address: string): string =>
  `${address}/notes?place=${smallGarden.bed}&traits=${smallGarden.traits.join(',')}&on=2026-05-20`;

/** A busy machine takes its time. */
const soon = { timeout: 30_000 };

/** The service worker has the whole app. */
const appKept = (page: Page): Promise<unknown> =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((resolve) => setTimeout(resolve, 50));
  });
const box = (page: Page, trait: number, plant: number) =>
  page.getByRole('textbox', { name: `Trait ${smallGarden.traits[trait]}, ${smallGarden.plants[plant]}` });
const waiting = (page: Page) => page.locator('.waiting-notes strong');

describe.skipIf(!hasBrowser)('the app on a device', () => {
  let place: Awaited<ReturnType<typeof newPlace>>;
  let programme: Programme;
  let browser: OpenBrowser;
  const undo: (() => Promise<void> | void)[] = [];
  beforeEach(async () => {
    place = await newPlace('sqlite');
    programme = await makeSmallGarden(place.where);
  });
  afterEach(async () => {
    for (const step of undo.splice(0).reverse()) await step();
    await programme.close();
    await place.remove();
  });
  async function open(viewport: { width: number; height: number }): Promise<Page> {
    browser = await openBrowser(viewport);
    undo.push(() => browser.close());
    return browser.page;
  }
  async function serve(): Promise<KillableKeelrow> {
    const server = new KillableKeelrow(place.where);
    await server.start();
    undo.push(() => server.kill());
    return server;
  }
  const stored = () =>
    programme.read
      .selectFrom('notes')
      .select(['id', 'plant', 'trait', 'value_number', 'ended_act'])
      .orderBy('made_act')
      .execute();

  it('opens without server and network after one visit, on the phone’s own page too', async () => {
    const server = await serve();
    const page = await open(phone);
    await page.goto(`${server.address}/phone`);
    await page.getByRole('button', { name: 'Fetch the garden now' }).click();
    await page.getByText('6 plants with their latest notes').waitFor();
    await appKept(page);
    expect(await breaches(page)).toEqual([]);
    await server.kill();
    await page.context().setOffline(true);
    await page.reload();
    await page.getByText('Small Garden').waitFor();
    await page.getByText('6 plants with their latest notes').waitFor();
    await page.getByText('No network: notes are kept on this device').waitFor();
    await expect.poll(() => waiting(page).textContent(), soon).toBe('0');
    await page.goto(`${server.address}/walk`);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    expect(await page.getByText('Small Garden').count()).toBeGreaterThan(0);
  });

  it('is one that browsers install', async () => {
    const server = await serve();
    const page = await open(phone);
    await page.goto(`${server.address}/phone`);
    await appKept(page);
    const tool = await page.context().newCDPSession(page);
    const { installabilityErrors } = await tool.send('Page.getInstallabilityErrors');
    // A profile without a window of its own is all that may be wrong.
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual(
      [],
    );
    const { errors } = await tool.send('Page.getAppManifest');
    expect(errors).toEqual([]);
  });

  it('keeps notes of the office grid over a reload while the server is away, and hands them over afterwards', async () => {
    const server = await serve();
    const page = await open(desk);
    await page.goto(gridAt(server.address));
    await appKept(page);
    await server.kill();
    await box(page, 0, 0).fill('17');
    await box(page, 0, 0).press('Enter');
    await expect.poll(() => waiting(page).textContent(), soon).toBe('1');
    await page.getByText('Not handed over:').waitFor();
    await page.reload();
    await expect.poll(() => waiting(page).textContent(), soon).toBe('1');
    await page.goto(`${server.address}/phone`);
    await page.getByText('See what waits').click();
    await page.getByText('H-1/1 Trait one 17').waitFor();
    await server.start();
    await page.getByRole('button', { name: 'Hand over now' }).click();
    await expect.poll(() => waiting(page).textContent(), soon).toBe('0');
    expect((await stored()).map(({ value_number }) => value_number)).toEqual([17]);
  });

  it('saves what waits to a file that another browser takes in', async () => {
    const server = await serve();
    const page = await open(desk);
    await page.goto(gridAt(server.address));
    await appKept(page);
    await page.route('**/api/phone/facts', (route) => route.abort());
    await box(page, 1, 2).fill('44');
    await box(page, 1, 2).press('Enter');
    await expect.poll(() => waiting(page).textContent(), soon).toBe('1');
    await page.goto(`${server.address}/phone`);
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save all to a file' }).click();
    const file = await (await saving).path();
    const other = await openBrowser(desk);
    undo.push(() => other.close());
    await other.page.goto(`${server.address}/phone`);
    await other.page.getByText('Take in a file that another phone saved').click();
    await other.page.locator('input[type=file]').setInputFiles(file);
    await other.page.getByText('1 note and 0 pictures taken in').waitFor();
    await expect
      .poll(async () => (await stored()).map(({ value_number }) => value_number), soon)
      .toEqual([44]);
    // And the phone that saved it may still hand it over itself.
    await page.unroute('**/api/phone/facts');
    await page.getByRole('button', { name: 'Hand over now' }).click();
    await expect.poll(() => waiting(page).textContent(), soon).toBe('0');
    expect(await stored()).toHaveLength(1);
  });

  it('two windows of a browser do not hand over at the same time', async () => {
    const server = await serve();
    const page = await open(desk);
    await page.goto(gridAt(server.address));
    let [now, most] = [0, 0];
    await page.context().route('**/api/phone/facts', async (route) => {
      now += 1;
      most = Math.max(most, now);
      await new Promise((resolve) => setTimeout(resolve, 300));
      await route.continue();
      now -= 1;
    });
    const other = await page.context().newPage();
    await other.goto(gridAt(server.address));
    await Promise.all([
      box(page, 0, 0)
        .fill('1')
        .then(() => box(page, 0, 0).press('Enter')),
      box(other, 0, 1)
        .fill('2')
        .then(() => box(other, 0, 1).press('Enter')),
    ]);
    await expect.poll(async () => (await stored()).length, soon).toBe(2);
    await expect.poll(() => waiting(other).textContent(), soon).toBe('0');
    expect(most).toBe(1);
  });

  it('a new build waits, is offered, and hands over what the old one kept', async () => {
    const web = mkdtempSync(join(tmpdir(), 'keelrow-web-'));
    undo.push(() => rmSync(web, { recursive: true, force: true }));
    cpSync(built('packages/web/dist/app'), web, { recursive: true });
    let server: RunningServer | undefined;
    const start = async (port: number): Promise<RunningServer> =>
      startServer({ programme, where: place.where, host: '127.0.0.1', port, open: true, web });
    server = await start(0);
    undo.push(() => server?.close());
    const { address } = server;
    const page = await open(desk);
    await page.goto(gridAt(address));
    await appKept(page);
    await server.close();
    await box(page, 2, 3).fill('33');
    await box(page, 2, 3).press('Enter');
    await expect.poll(() => waiting(page).textContent(), soon).toBe('1');

    process.env.KEELROW_BUILD = 'the next one';
    undo.push(() => {
      delete process.env.KEELROW_BUILD;
    });
    await build({
      configFile: fileURLToPath(new URL('../../packages/web/vite.config.ts', import.meta.url)),
      logLevel: 'error',
      build: { outDir: web },
    });
    // Only the new build gets through.
    await page.route('**/api/phone/facts', (route) => route.abort());
    server = await start(Number(new URL(address).port));
    // Something half typed: the new version is not offered.
    await box(page, 2, 4).fill('1');
    await page.evaluate(() => navigator.serviceWorker.ready.then((one) => one.update()));
    await expect
      .poll(
        () => page.evaluate(() => navigator.serviceWorker.ready.then((one) => one.waiting !== null)),
        soon,
      )
      .toBe(true);
    expect(await page.getByText('A new version of Keelrow is here').count()).toBe(0);
    await box(page, 2, 4).fill('');
    const reloaded = page.waitForEvent('load');
    await page.getByRole('button', { name: 'Change to it' }).click();
    await reloaded;
    expect(await waiting(page).textContent()).not.toBe('0');
    await page.unroute('**/api/phone/facts');
    await expect.poll(() => waiting(page).textContent(), soon).toBe('0');
    await page.goto(`${address}/phone`);
    await page.getByText('Build the next one').waitFor();
    expect((await stored()).map(({ value_number }) => value_number)).toEqual([33]);
  });

  it('20 histories with cut-offs, reloads and a server that dies end with each note once', async () => {
    const server = await serve();
    const page = await open(desk);
    // A seeded draw, the same each time (Park and Miller 1988).
    let seed = 20_310_520;
    const draw = (below: number): number => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed % below;
    };
    const faults = ['none', 'none', 'before', 'after', 'half'] as const;
    let fault: (typeof faults)[number] = 'none';
    await page.context().route('**/api/phone/facts', async (route: Route) => {
      const now = fault;
      fault = 'none';
      if (now === 'none') return route.continue();
      if (now === 'before') return route.abort();
      const answer = await route.fetch().catch(() => null);
      if (!answer || now === 'after') return route.abort();
      const text = await answer.text();
      return route.fulfill({ response: answer, body: text.slice(0, text.length / 2) });
    });
    await page.goto(gridAt(server.address));
    await appKept(page);
    const typed = new Map<string, number>();
    for (let history = 0; history < 20; history++) {
      for (let step = 0; step < 5; step++) {
        fault = faults[draw(faults.length)]!;
        const [trait, plant, value] = [draw(3), draw(6), draw(200)];
        await box(page, trait, plant).fill(String(value));
        await box(page, trait, plant).press('Enter');
        typed.set(`${smallGarden.traits[trait]} ${smallGarden.plants[plant]}`, value);
        const killed = step === 3 && history % 5 === 4;
        if (killed) {
          await server.kill();
          await server.start();
        }
        // A page that is loaded just then asks for the bed in vain; it is loaded when the server is there again.
        if (draw(6) === 0 || killed) await page.reload();
        await box(page, 0, 0).waitFor();
      }
      fault = 'none';
      await page.goto(`${server.address}/phone`);
      await expect
        .poll(async () => {
          const hand = page.getByRole('button', { name: 'Hand over now' });
          if (await hand.isEnabled().catch(() => false)) await hand.click();
          return waiting(page).textContent();
        }, soon)
        .toBe('0');
      await page.goto(gridAt(server.address));
    }
    const [plants, traits] = await Promise.all(
      (['plants', 'traits'] as const).map(async (kind) => {
        const rows = await programme.read.selectFrom(kind).select(['id', 'code']).execute();
        return new Map(rows.map(({ id, code }) => [id, code]));
      }),
    );
    const standing = (await stored()).filter(({ ended_act }) => ended_act === null);
    const kept = standing.map(
      (note) => [`${traits!.get(note.trait)} ${plants!.get(note.plant!)}`, note.value_number] as const,
    );
    expect(kept).toHaveLength(typed.size);
    expect(new Map(kept)).toEqual(typed);
    expect(server.kills).toBe(4);
  }, 600_000);
});
