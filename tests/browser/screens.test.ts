import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  breaches,
  desk,
  hasBrowser,
  narrowPhone,
  type OpenBrowser,
  openBrowser,
  phone,
} from '../support/browser.ts';
import { type RunningKeelrow, startKeelrow } from '../support/running-keelrow.ts';

describe.skipIf(!hasBrowser)('the screens on the demo garden', () => {
  let served: RunningKeelrow;
  let genet: string;
  const screens = (): Record<string, string> => ({
    Plants: '/plants',
    'one plant': `/plants/${genet}`,
    Notes: '/notes',
    Beds: '/beds',
    'one bed': '/beds/trial-4?trait=spike-count',
    Compare: '/compare?trait=spike-count',
    'one trait': '/traits/spike-count',
    Briefs: '/briefs',
    'one brief': '/briefs/tall-slate',
    Import: '/import',
    'Phones & people': '/phones',
    'Unsettled notes': '/unsettled',
    Programme: '/programme',
    'a list of records': '/programme/seed-lots',
    'no such page': '/nowhere',
  });
  beforeAll(async () => {
    served = await startKeelrow(['demo']);
    const { rows } = await (
      await fetch(`${served.address}/api/plants?sort=notes&descending=true&limit=200`)
    ).json();
    genet = rows.find((row: { seedParent: string }) => row.seedParent !== '').code;
  });
  afterAll(() => served.stop());

  async function eachScreen(browser: OpenBrowser, look: (name: string) => Promise<void>): Promise<void> {
    for (const [name, path] of Object.entries(screens())) {
      await browser.page.goto(served.address + path);
      await browser.page.waitForLoadState('networkidle');
      if (name === 'Compare')
        await browser.page.getByRole('region', { name: /Ranking/ }).waitFor({ timeout: 200_000 });
      if (name === 'one trait')
        await browser.page.locator('.residual-panel').first().waitFor({ timeout: 200_000 });
      if (name === 'one brief') await browser.page.locator('.limit').first().waitFor();
      await look(name);
    }
  }

  for (const scheme of ['light', 'dark'] as const) {
    for (const [where, viewport] of [
      ['at a desk', desk],
      ['on a phone', phone],
    ] as const) {
      it(`meet WCAG 2.2 AA by axe, ${scheme}, ${where}`, async () => {
        const browser = await openBrowser(viewport, scheme);
        const found: Record<string, string[]> = {};
        await eachScreen(browser, async (name) => {
          const list = await breaches(browser.page);
          if (list.length > 0) found[name] = list;
        });
        await browser.close();
        expect(found).toEqual({});
        expect(browser.errors.filter((error) => !error.includes('404'))).toEqual([]);
      });
    }
  }

  it('fit a phone 360 pixels wide without scrolling sideways, with targets for thumbs', async () => {
    const browser = await openBrowser(narrowPhone);
    const wide: string[] = [];
    const small: string[] = [];
    await eachScreen(browser, async (name) => {
      const width = await browser.page.evaluate(() => document.documentElement.scrollWidth);
      if (width > narrowPhone.width) wide.push(`${name}: ${width}`);
      const targets = await browser.page.evaluate(() =>
        [...document.querySelectorAll('nav a, main button, main select')]
          .map((element) => ({
            words: element.textContent?.slice(0, 30) ?? '',
            box: element.getBoundingClientRect(),
          }))
          .filter(({ box }) => box.width > 0 && box.height > 0 && box.height < 40)
          .map(({ words, box }) => `${words} ${Math.round(box.width)}x${Math.round(box.height)}`),
      );
      small.push(...targets.map((target) => `${name}: ${target}`));
    });
    await browser.close();
    expect(wide).toEqual([]);
    expect(small).toEqual([]);
  });

  it('let plants be found by keyboard alone', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/plants`);
    await page
      .getByText(/genets/)
      .first()
      .waitFor();
    await page.keyboard.press('/');
    await page.keyboard.type('slate heron');
    await expect.poll(() => page.getByRole('status').first().textContent()).toMatch(/^1 genet/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.getByRole('heading', { level: 1 }).textContent()).toContain('Slate Heron');
    expect(await page.getByRole('img', { name: /family tree/i }).count()).toBe(1);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('take a note by keyboard, keep it, correct it, and ask about a slip', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/notes?place=trial-4&traits=spike-count`);
    const cell = page.getByRole('textbox', { name: /^Spikes, / }).last();
    await cell.scrollIntoViewIfNeeded();
    const label = (await cell.getAttribute('aria-label')) ?? '';
    const plant = label.replace('Spikes, ', '');
    const own = page.getByRole('textbox', { name: `Spikes, ${plant}`, exact: true });
    await own.fill('17');
    await own.press('Enter');
    const standing = async () => {
      const { rows } = await (
        await fetch(`${served.address}/api/note-grid?place=trial-4&traits=spike-count&year=2026`)
      ).json();
      return rows.find((row: { plantCode: string }) => row.plantCode === plant).cells['spike-count']?.value;
    };
    await expect.poll(standing).toBe(17);
    await own.fill('19');
    await own.press('Enter');
    await expect.poll(standing).toBe(19);
    await own.fill('100000');
    await own.press('Enter');
    await expect.poll(() => page.locator('main').textContent()).toMatch(/above the most/);
    expect(await standing()).toBe(19);
    expect(await own.inputValue()).toBe('100000');
    await browser.close();
  });

  it('hold two plants against each other in a plain sentence', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/compare?trait=spike-count`);
    const ticks = page.getByRole('checkbox', { name: /^Hold / });
    await ticks.first().waitFor();
    await ticks.nth(0).check();
    await ticks.nth(1).check();
    await expect
      .poll(() => page.locator('main').textContent(), { timeout: 30_000 })
      .toMatch(/chance|sure|likely/i);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });
});
