import { rmSync } from 'node:fs';
import type { LabelsDrawn, LabelsWanted } from '@keelrow/server/contract';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { hasBrowser, type OpenBrowser, openBrowser, phone } from '../support/browser.ts';
import { filmOf } from '../support/filmed-label.ts';
import { type Photographed, photograph } from '../support/printed-photo.ts';
import { type RunningKeelrow, startKeelrow } from '../support/running-keelrow.ts';

const stakes: LabelsWanted['form'] = { kind: 'single', size: { width: 150, height: 20 } };
const sheetOf24: LabelsWanted['form'] = {
  kind: 'sheet',
  grid: { paper: 'A4', rows: 8, columns: 3, marginX: 5, marginY: 10, gapX: 2, gapY: 2 },
  startAt: 1,
};
const plain: Photographed = { scale: 8, turn: 0, back: 0, side: 0, blur: 0, noise: 0, light: 1 };

// Drawing ten photos takes its time on a busy computer.
describe.skipIf(!hasBrowser)('scanning', { timeout: 300_000 }, () => {
  let served: RunningKeelrow;
  let browser: OpenBrowser;
  beforeEach(async () => {
    served = await startKeelrow(['serve', '--open']);
    browser = await openBrowser(phone);
    const add = async (kind: string, row: object): Promise<void> => {
      const response = await fetch(`${served.address}/api/records/${kind}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ row }),
      });
      if (!response.ok) throw new Error(`${kind}: ${await response.text()}`);
    };
    await add('places', { code: 'bed-4', sort: 'bed' });
    await add('genets', { code: '2021-004-3', name: 'Moon Path' });
    for (let plant = 1; plant <= 24; plant++)
      await add('plants', { code: `2021-004-3/${plant}`, genet: '2021-004-3', place: 'bed-4', walk: plant });
  });
  afterEach(async () => {
    await browser.close();
    await served.stop();
  });

  const drawn = async (form: LabelsWanted['form']): Promise<LabelsDrawn> => {
    const response = await fetch(`${served.address}/api/labels/drawn`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ of: 'plants', place: 'bed-4', form, lead: 'code', copies: 1 }),
    });
    return (await response.json()) as LabelsDrawn;
  };

  it('reads a stake from photos taken askew, out of focus, in noise and in shade, without a connection', async () => {
    const { page } = browser;
    const [stake] = (await drawn(stakes)).pages;
    const studio = await page.context().newPage();
    const cases: Partial<Photographed>[] = [
      {},
      { turn: -143, noise: 8 },
      { back: 35, side: -20 },
      { blur: 2 },
      { noise: 30, light: 0.35 },
      { back: 25, side: 15, turn: 40, blur: 1.5, noise: 15, light: 0.5 },
      { scale: 5, back: 15, turn: -20, blur: 1, noise: 10 },
    ];
    const photos = [];
    for (const how of cases) photos.push(await photograph(studio, stake!, { ...plain, ...how }));
    await studio.close();
    await page.goto(`${served.address}/paper`);
    await page.getByRole('button', { name: 'Scan its square' }).click();
    await page
      .getByText(/camera/)
      .first()
      .waitFor();
    // Once the app's own files are kept on the device.
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await page.context().setOffline(true);
    const read: boolean[] = [];
    for (const photo of photos) {
      await page
        .locator('dialog input[type=file]')
        .setInputFiles({ name: 'p.jpg', mimeType: 'image/jpeg', buffer: photo });
      const found = page.getByRole('heading', { name: 'Sheet 2021-004-3/1' });
      await found.or(page.locator('dialog .field-problem')).first().waitFor();
      read.push(await found.isVisible());
      if (read.at(-1)) {
        await page.goBack();
        await page.getByRole('button', { name: 'Scan its square' }).click();
      }
    }
    expect(read).toEqual(cases.map(() => true));
  });

  it('reads the labels of a photo of a whole printed sheet and asks which one is meant', async () => {
    const { page } = browser;
    const [sheet] = (await drawn(sheetOf24)).pages;
    const studio = await page.context().newPage();
    const photo = await photograph(studio, sheet!, {
      ...plain,
      scale: 4.7,
      turn: 5,
      back: 18,
      side: -8,
      blur: 0.6,
      noise: 10,
      light: 0.7,
    });
    await studio.close();
    await page.goto(`${served.address}/paper`);
    await page.getByRole('button', { name: 'Scan its square' }).click();
    await page
      .locator('dialog input[type=file]')
      .setInputFiles({ name: 'p.jpg', mimeType: 'image/jpeg', buffer: photo });
    await page.getByText('Several labels are in this photo').waitFor({ timeout: 90_000 });
    const codes = await page.locator('.scan-choice button').allTextContents();
    // Of 24 labels; QR codes of 57 pixels before tilting. Measured: 21.
    expect(codes.length).toBeGreaterThanOrEqual(18);
    expect(new Set(codes).size).toBe(codes.length);
    expect(codes.every((code) => /^2021-004-3\/\d+$/.test(code))).toBe(true);
  });

  it('reads a label held before the camera', async () => {
    const { page } = browser;
    const studio = await page.context().newPage();
    const [stake] = (await drawn({ kind: 'single', size: { width: 60, height: 20 } })).pages;
    const film = await filmOf(studio, stake!);
    await browser.close();
    browser = await openBrowser(phone, 'light', [
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-video-capture=${film}`,
    ]);
    const filmed = browser.page;
    await filmed.goto(`${served.address}/paper`);
    await filmed.getByRole('button', { name: 'Scan its square' }).click();
    await filmed.getByRole('heading', { name: 'Sheet 2021-004-3/1' }).waitFor();
    // The camera is let go.
    expect(await filmed.locator('video').count()).toBe(0);
    rmSync(film);
  });
});
