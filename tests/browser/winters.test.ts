import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { breaches, desk, hasBrowser, narrowPhone, openBrowser } from '../support/browser.ts';
import { type RunningKeelrow, startKeelrow } from '../support/running-keelrow.ts';

const long = { timeout: 100_000 };

describe.skipIf(!hasBrowser)('winters of the demo garden', () => {
  let served: RunningKeelrow;
  beforeAll(async () => {
    served = await startKeelrow(['demo']);
  });
  afterAll(() => served.stop());

  it('are reached from Compare by keyboard, and tell of cold, origins and genets', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/compare`);
    const link = page.getByRole('link', { name: 'How they come through winters' });
    await link.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'The colder the winter' }).waitFor(long);
    // A line each for first and later winters; an origin's is drawn beside them.
    await expect.poll(() => page.locator('.cold-curve > svg .cold-line').count()).toBe(2);
    const origins = page.getByRole('combobox', { name: 'Draw beside it' });
    await origins.selectOption({ index: 1 });
    await expect.poll(() => page.locator('.cold-curve > svg .cold-line').count()).toBe(3);
    await page.reload();
    await expect.poll(() => page.locator('.cold-curve > svg .cold-line').count(), long).toBe(3);

    const chances = (
      await page
        .getByRole('table', { name: /^Origins/ })
        .locator('.chances-value')
        .allTextContents()
    ).map((text) => Number.parseInt(text.replace('>', ''), 10));
    expect(chances.length).toBeGreaterThan(3);
    expect(chances).toEqual([...chances].sort((a, b) => b - a));

    // Stood and lost of the winters add up to the sentence above them.
    const numbers = async (column: number) =>
      (await page.locator(`.winter-table tbody td:nth-of-type(${column})`).allTextContents())
        .map((text) => Number(text.replace(',', '')))
        .reduce((sum, number) => sum + number, 0);
    const words = (await page.locator('.winters-behind > p').first().textContent()) ?? '';
    const [stood, lost] = [...words.replaceAll(',', '').matchAll(/\d+/g)].map(Number);
    expect([await numbers(2), await numbers(3)]).toEqual([stood, lost]);

    const genets = page.getByRole('table', { name: /^Genets/ });
    const code = (await genets.getByRole('link').nth(3).textContent()) ?? '';
    await page.getByRole('searchbox', { name: 'Search among the genets' }).fill(code);
    await expect.poll(() => genets.getByRole('link').count()).toBeLessThan(12);
    await genets.getByRole('link', { name: code, exact: true }).click();
    await expect.poll(() => page.getByRole('heading', { level: 1 }).textContent()).toContain(code);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  for (const [where, viewport, scheme] of [
    ['at a desk', desk, 'dark'],
    ['on a phone 360 pixels wide', narrowPhone, 'light'],
  ] as const) {
    it(`are within WCAG 2.2 AA by axe and fit the window, ${where}`, async () => {
      const browser = await openBrowser(viewport, scheme);
      const { page } = browser;
      await page.goto(`${served.address}/winters`);
      await page.getByRole('table', { name: /^Genets/ }).waitFor(long);
      expect(await breaches(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
        viewport.width,
      );
      await browser.close();
      expect(browser.errors).toEqual([]);
    });
  }

  it('speak °F where the programme has chosen US customary units', async () => {
    const change = async (units: string) => {
      const { settings } = await (await fetch(`${served.address}/api/programme`)).json();
      const answer = await fetch(`${served.address}/api/programme`, {
        method: 'PATCH',
        headers: { 'content-type': 'application/json', origin: served.address },
        body: JSON.stringify({ ...settings, units }),
      });
      expect(answer.status).toBe(200);
    };
    await change('us');
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/winters`);
    await page
      .getByText(/whose coldest night has \d+ °F/)
      .first()
      .waitFor(long);
    expect(await page.locator('main').textContent()).not.toContain('°C');
    await browser.close();
    await change('metric');
    expect(browser.errors).toEqual([]);
  });
});
