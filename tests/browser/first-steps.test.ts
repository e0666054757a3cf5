import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { desk, hasBrowser, type OpenBrowser, openBrowser, phone } from '../support/browser.ts';
import { type RunningKeelrow, startKeelrow } from '../support/running-keelrow.ts';

/** From an empty programme to a ranking, as somebody does who has never seen Keelrow. */
describe.skipIf(!hasBrowser)('the first steps', () => {
  let served: RunningKeelrow;
  let browser: OpenBrowser;
  let folder: string;
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'keelrow-sheets-'));
    served = await startKeelrow(['serve', '--open']);
    browser = await openBrowser(desk);
  });
  afterEach(async () => {
    await browser.close();
    await served.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  /** A sheet as people have them: semicolons, decimal commas, inches, years. */
  function sheet(rows: readonly string[]): string {
    const path = join(folder, 'my notes.csv');
    writeFileSync(path, ['Plant;Year;Height (in);Spikes', ...rows].join('\r\n'));
    return path;
  }
  const scatter = [0.4, -0.9, 0.2, 1.1, -0.5, 0.7, -1.2, 0.1];
  const rows = Array.from({ length: 36 }, (_, index) => {
    const [plant, year] = [(index % 12) + 1, 2021 + Math.floor(index / 12)];
    return `Blue ${plant};${year};${(24 + plant + scatter[index % 8]!).toFixed(1).replace('.', ',')};${10 + plant}`;
  });

  it('lead from an own spreadsheet to a ranking of its plants', async () => {
    const { page, errors } = browser;
    await page.goto(served.link);
    await page.getByRole('link', { name: 'Choose a file' }).click();
    await page.locator('input[type=file]').setInputFiles(sheet(rows));
    await page.getByRole('button', { name: '1 June of the year' }).click();
    await page.getByRole('checkbox', { name: 'Make the 12 plants' }).check();
    const store = page.getByRole('button', { name: /^Store .*72 notes/ });
    await store.click();
    await page.getByText('Stored: 2 traits, 12 genets, 12 plants, 72 notes.').waitFor();
    await page.getByRole('link', { name: 'Rank them' }).click();
    await page.getByRole('combobox', { name: 'Rank by' }).selectOption({ label: 'Height (36 notes)' });
    const best = page
      .getByRole('row')
      .filter({ has: page.getByRole('rowheader') })
      .first();
    await expect.poll(() => best.textContent()).toContain('Blue 12');
    await page.getByRole('checkbox', { name: 'Hold Blue 12 against another' }).check();
    await page.getByRole('checkbox', { name: 'Hold Blue 1 against another', exact: true }).check();
    await page
      .getByText(/Blue 12/)
      .first()
      .waitFor();
    expect(errors).toEqual([]);
  });

  it('tell every fault of a sheet by row and column and keep the mapping', async () => {
    const { page } = browser;
    await page.goto(`${served.address}/import`);
    await page
      .locator('input[type=file]')
      .setInputFiles(sheet([...rows, 'Blue 1;2024;tall;11', 'Blue 2;next year;30;12']));
    await page.getByRole('button', { name: '1 June of the year' }).click();
    await page.getByRole('checkbox', { name: 'Make the 12 plants' }).check();
    const problems = page.getByRole('region', { name: 'Problems' });
    await expect.poll(() => problems.textContent()).toContain('“tall” is not a number');
    expect(await problems.textContent()).toMatch(/Row 38/);
    expect(await problems.textContent()).toMatch(/Row 39[\s\S]*“next year” is not a year/);
    expect(await page.getByRole('button', { name: /^Store/ }).isDisabled()).toBe(true);
    expect(await page.getByRole('combobox', { name: 'What Plant holds' }).inputValue()).not.toBe('');
    const state = await (await fetch(`${served.address}/api/programme`)).json();
    expect(state).toMatchObject({ counts: { genets: 0, plants: 0, notes: 0, traits: 0 } });
  });

  it('take a first plant entered by hand', async () => {
    const { page, errors } = browser;
    await page.goto(served.link);
    await page.getByRole('button', { name: 'Enter a plant' }).click();
    const form = page.getByRole('dialog');
    await form.getByRole('textbox', { name: /^code/i }).fill('A-1');
    await form.getByRole('button', { name: /^(add|store|keep|enter)/i }).click();
    await page.getByRole('heading', { name: 'A-1' }).waitFor();
    expect(errors).toEqual([]);
  });

  it('open the invented garden, on a phone too', async () => {
    await browser.page.setViewportSize(phone);
    await browser.page.goto(served.link);
    await browser.page.getByRole('button', { name: 'Open the invented garden' }).click();
    await browser.page.getByText('invented garden').first().waitFor({ timeout: 60_000 });
    await expect
      .poll(async () => (await (await fetch(`${served.address}/api/programme`)).json()).counts.genets, {
        timeout: 60_000,
      })
      .toBeGreaterThan(1000);
    await browser.page.getByText(/1,\d\d\d genets/).waitFor({ timeout: 60_000 });
    expect(browser.errors).toEqual([]);
  });
});
