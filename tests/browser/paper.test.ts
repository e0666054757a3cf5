import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { breaches, desk, hasBrowser, type OpenBrowser, openBrowser, phone } from '../support/browser.ts';
import { type RunningKeelrow, startKeelrow } from '../support/running-keelrow.ts';

/** Labels and round sheets at the office: printed, and sheets typed in again. */
describe.skipIf(!hasBrowser)('labels and paper', { timeout: 300_000 }, () => {
  let served: RunningKeelrow;
  let browser: OpenBrowser;
  beforeEach(async () => {
    served = await startKeelrow(['serve', '--open']);
    const add = async (kind: string, row: object): Promise<void> => {
      const response = await fetch(`${served.address}/api/records/${kind}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ row }),
      });
      if (!response.ok) throw new Error(`${kind}: ${await response.text()}`);
    };
    await add('people', { code: 'MK', name: 'Mara Kestrel', role: 'recorder' });
    await add('places', { code: 'bed-4', sort: 'bed' });
    await add('traits', { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', most: 300 });
    await add('traits', { code: 'spikes', name: 'Spikes', sort: 'counted' });
    await add('genets', { code: 'G1', name: 'Moon Path' });
    for (let plant = 1; plant <= 3; plant++) {
      await add('plants', { code: `G1/${plant}`, genet: 'G1', place: 'bed-4', walk: plant });
      await add('notes', { plant: `G1/${plant}`, trait: 'height', on: '2025-05-20', value: 100 + plant });
    }
  });
  afterEach(async () => {
    await browser.close();
    await served.stop();
  });

  it('a round is printed, found by its number and typed in with Enter alone; what is odd is asked about', async () => {
    browser = await openBrowser(desk);
    const { page, errors } = browser;
    await page.goto(`${served.address}/paper`);
    await page.getByRole('button', { name: /^Traits|^Choose traits/ }).click();
    await page.getByRole('checkbox', { name: /Height/ }).check();
    await page.getByRole('checkbox', { name: /Spikes/ }).check();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Make the sheet' }).click();
    const pdf = page.getByRole('link', { name: /^PDF of R/ });
    await pdf.waitFor();
    const file = await fetch(new URL((await pdf.getAttribute('href'))!, served.address));
    expect(file.headers.get('content-type')).toBe('application/pdf');
    expect(
      Buffer.from(await file.arrayBuffer())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
    expect(await breaches(page)).toEqual([]);

    const code = (await pdf.getAttribute('aria-label'))!.replace('PDF of ', '');
    await page.getByRole('textbox', { name: 'Number in its upper right corner' }).fill(code.toLowerCase());
    await page.getByRole('button', { name: 'Find it' }).click();
    await page.getByLabel('Date on the sheet').fill('2026-05-20');
    await page.getByLabel('Person').selectOption('MK');
    const box = (trait: string, plant: string) =>
      page.getByRole('textbox', { name: `${trait}, ${plant}`, exact: true });
    await expect
      .poll(() => box('Height', 'G1/1').evaluate((one) => one === document.activeElement))
      .toBe(true);
    for (const typed of ['110', '7', '12']) {
      await page.keyboard.type(typed);
      await page.keyboard.press('Enter');
    }
    // 12 cm after 102: asked about, and still in its box.
    await page.getByText(/12 cm\? In 2025 this plant had 102 cm/).waitFor();
    expect(await breaches(page)).toEqual([]);
    await page.keyboard.press('Control+a');
    for (const typed of ['112', 'n', 'm']) {
      await page.keyboard.type(typed);
      await page.keyboard.press('Enter');
    }
    const stored = async (): Promise<string[]> => {
      const response = await fetch(`${served.address}/api/records/notes?limit=50`);
      const { rows } = (await response.json()) as { rows: Record<string, unknown>[] };
      return rows
        .filter(({ on }) => on === '2026-05-20')
        .map(({ plant, trait, state, value, by }) => [plant, trait, state ?? 'seen', value, by].join(' '))
        .sort();
    };
    await expect
      .poll(stored, { timeout: 30_000 })
      .toEqual([
        'G1/1 height seen 110 MK',
        'G1/1 spikes seen 7 MK',
        'G1/2 height seen 112 MK',
        'G1/2 spikes not yet  MK',
        'G1/3 height missing  MK',
      ]);
    // Left and come back to: the boxes are filled and the next one is ready.
    await page.reload();
    await expect
      .poll(() => box('Spikes', 'G1/3').evaluate((one) => one === document.activeElement))
      .toBe(true);
    expect(await box('Height', 'G1/2').inputValue()).toBe('112');
    expect(errors).toEqual([]);
  });

  it('labels are chosen, drawn as they will print, and handed over as a PDF', async () => {
    browser = await openBrowser(phone);
    const { page, errors } = browser;
    await page.goto(`${served.address}/labels`);
    await page.getByRole('heading', { name: '3 labels on 3 pages' }).waitFor();
    await page.getByRole('radio', { name: 'Sheet, A4' }).check();
    await page.getByRole('textbox', { name: 'First free place' }).fill('23');
    await page.getByRole('textbox', { name: 'Labels of each' }).fill('2');
    await page.getByRole('heading', { name: '6 labels on 2 pages' }).waitFor();
    await page.getByRole('checkbox', { name: 'G1/2 Moon Path' }).uncheck();
    await page.getByRole('heading', { name: '4 labels on 2 pages' }).waitFor();
    expect(await breaches(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(phone.width);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Make the PDF' }).click();
    expect((await download).suggestedFilename()).toBe('labels-bed-4.pdf');
    await page.getByRole('textbox', { name: 'Columns', exact: true }).fill('25');
    await page.getByText(/is too small; at least 10 × 6 mm/).waitFor();
    expect(errors.filter((error) => !error.includes('422'))).toEqual([]);
  });
});
