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

const long = { timeout: 100_000 };

/** A number as the screens write it: a proper minus, a plus, thousands parted by commas. */
const numberIn = (text: string): number => Number(text.replace('−', '-').replace(/[+,%<]/g, ''));

describe.skipIf(!hasBrowser)('estimates by kin on the demo garden', () => {
  let served: RunningKeelrow;
  let genet: string;
  beforeAll(async () => {
    served = await startKeelrow(['demo']);
    const { rows } = await (
      await fetch(`${served.address}/api/plants?sort=notes&descending=true&limit=200`)
    ).json();
    genet = rows.find((row: { seedParent: string }) => row.seedParent !== '').code;
  });
  afterAll(() => served.stop());

  const traitPage = async (browser: OpenBrowser): Promise<void> => {
    await browser.page.goto(`${served.address}/traits/spike-length`);
    await browser.page.getByRole('heading', { name: 'Good and bad spots in the beds' }).waitFor(long);
  };

  for (const [where, viewport, scheme] of [
    ['at a desk', desk, 'dark'],
    ['on a phone', phone, 'light'],
  ] as const) {
    it(`tell the model of a trait, within WCAG 2.2 AA by axe, ${where}`, async () => {
      const browser = await openBrowser(viewport, scheme);
      await traitPage(browser);
      const { page } = browser;
      const shares = await page.locator('.variation-table tbody tr td:nth-child(3)').allTextContents();
      const total = shares.map(numberIn).reduce((sum, share) => sum + share, 0);
      // Each share is rounded to a per cent.
      expect(Math.abs(total - 100)).toBeLessThanOrEqual(shares.length);
      const terms = await page.locator('.model-terms tbody tr').allTextContents();
      expect(terms.some((words) => words.includes('taken into account'))).toBe(true);
      expect(terms.some((words) => words.includes('left out'))).toBe(true);
      await page.locator('.residual-panel').first().click();
      await page.locator('.residual-spot').first().waitFor();
      expect(await breaches(page)).toEqual([]);
      await browser.close();
      expect(browser.errors).toEqual([]);
    });
  }

  it('lead by arrow keys from a mark in a bed to the page of its plant', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await traitPage(browser);
    await page.locator('.residual-panel').nth(2).focus();
    await page.keyboard.press('Enter');
    await page.locator('.residual-spot[tabindex="0"]').focus();
    const first = await page.locator('.one-panel-words').textContent();
    for (const key of ['ArrowRight', 'ArrowUp', 'ArrowDown', 'ArrowLeft']) await page.keyboard.press(key);
    await page.keyboard.press('ArrowRight');
    const words = (await page.locator('.one-panel-words').textContent()) ?? '';
    expect(words).toMatch(/noted .*(expected)/);
    expect(words).not.toBe(first);
    const code = (await page.locator('.one-panel-words a').textContent()) ?? '';
    await page.keyboard.press('Enter');
    await expect.poll(() => page.getByRole('heading', { level: 1 }).textContent()).toContain(code);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('open a note that may be a slip, to be mended', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await traitPage(browser);
    await page
      .getByRole('button', { name: /^Open the note on/ })
      .first()
      .click();
    const sheet = page.getByRole('dialog');
    await expect.poll(() => sheet.getByRole('textbox', { name: 'Value' }).inputValue()).toMatch(/^\d/);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('rank as plants and as parents, with genets that only kin tell on, and by the chance to be among the best', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/compare?trait=spike-length`);
    const table = page.getByRole('region', { name: /Ranking/ }).getByRole('table');
    await table.waitFor(long);
    const rows = async (): Promise<number> => Number(await table.getAttribute('aria-rowcount'));
    const noted = await rows();
    await page.getByRole('checkbox', { name: /without notes, by their kin/ }).check();
    await expect.poll(rows).toBeGreaterThan(noted);
    await page.getByRole('textbox', { name: 'Chance to be among the best' }).fill('5');
    await page.getByRole('button', { name: 'Reckon' }).click();
    await page.getByRole('columnheader', { name: 'Best 5' }).waitFor(long);
    const chances = await page.locator('tbody .ranking-best').allTextContents();
    expect(chances[0]).toMatch(/^\d+%|more than 99%/);
    await page.getByRole('combobox', { name: 'Worth' }).selectOption('parent');
    await page.getByRole('columnheader', { name: /Above the average/ }).waitFor();
    const values = (await page.locator('tbody .ranking-value').allTextContents()).map((text) =>
      numberIn(text.split(' ')[0]!),
    );
    expect(values).toEqual([...values].sort((a, b) => b - a));
    await page.reload();
    await page.getByRole('columnheader', { name: /Above the average/ }).waitFor(long);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('say on a plant’s page where an estimate comes from, in parts that sum to it', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/plants/${genet}`);
    const from = page.getByRole('button', { name: /^Where from/ }).first();
    await from.waitFor(long);
    await from.click();
    const figures = page.locator('.where-from tbody tr td:last-child');
    await figures.last().waitFor(long);
    const numbers = (await figures.allTextContents()).map(numberIn);
    const [total, parts] = [numbers.at(-1)!, numbers.slice(0, -1)];
    // Each part is rounded to a tenth at the coarsest.
    expect(Math.abs(parts.reduce((sum, part) => sum + part, 0) - total)).toBeLessThanOrEqual(
      0.06 * numbers.length,
    );
    expect(await breaches(page)).toEqual([]);
    await page.getByRole('combobox', { name: 'Show estimates of' }).selectOption('spike-length');
    const own = page.locator('.family-this');
    await expect
      .poll(() => own.getAttribute('aria-label'), long)
      .toMatch(/\d+\.\d \(.*\), Spike length in cm/);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('sign a genet with a note that looks like a slip, and lead to that note', async () => {
    const browser = await openBrowser(desk);
    const { page } = browser;
    await page.goto(`${served.address}/traits/height`);
    const listed = page.locator('table.slips tbody th a');
    await listed.first().waitFor(long);
    const code = (await listed.first().textContent()) ?? '';
    await page.goto(`${served.address}/compare?trait=height`);
    await page.getByRole('columnheader', { name: 'Genet' }).waitFor(long);
    await page.getByRole('searchbox', { name: 'Search within the ranking' }).fill(code);
    const row = page.getByRole('row').filter({ has: page.getByRole('link', { name: code, exact: true }) });
    const sign = row.getByRole('link', { name: /notes? looks? like/ });
    await sign.waitFor();
    expect(await breaches(page)).toEqual([]);
    await sign.focus();
    await page.keyboard.press('Enter');
    const heading = page.getByRole('heading', { name: 'Notes that may be slips' });
    await heading.waitFor(long);
    await expect
      .poll(() => heading.evaluate((element) => element.getBoundingClientRect().top < innerHeight / 2))
      .toBe(true);
    expect(await page.locator('table.slips tbody th a').allTextContents()).toContain(code);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('say of a trait of seed lots that its notes are not on plants', async () => {
    const browser = await openBrowser(narrowPhone);
    const { page } = browser;
    await page.goto(`${served.address}/traits/seed-length`);
    await page.getByText(/^Its \d+ notes are on seed lots\. Estimates rank genets/).waitFor(long);
    await page.getByRole('link', { name: 'See the notes' }).click();
    await page.getByRole('cell', { name: 'seed-length' }).first().waitFor();
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('stand in the family tree for many sibs at once as their mean', async () => {
    const { rows } = await (
      await fetch(`${served.address}/api/plants?sort=notes&descending=true&limit=60`)
    ).json();
    let parent: string | null = null;
    for (const { code } of rows) {
      const { family } = await (await fetch(`${served.address}/api/genets/${code}`)).json();
      if (family.members.some(({ standsFor = [] }: { standsFor?: string[] }) => standsFor.length > 1)) {
        parent = code;
        break;
      }
    }
    const browser = await openBrowser(desk, 'dark');
    const { page } = browser;
    await page.goto(`${served.address}/plants/${parent}`);
    await page.getByRole('combobox', { name: 'Show estimates of' }).selectOption('spike-length');
    const sibs = page.locator('.family-box[aria-label*=" sibs "]').first();
    await expect
      .poll(() => sibs.getAttribute('aria-label'), long)
      .toMatch(/and others \d+\.\d \(.*\), Spike length in cm, mean of (\d+ of )?\d+ sibs/);
    expect(await breaches(page)).toEqual([]);
    await browser.close();
    expect(browser.errors).toEqual([]);
  });

  it('wait on a phone until they are asked for, and fit one 360 pixels wide', async () => {
    const browser = await openBrowser(narrowPhone);
    const { page } = browser;
    await page.goto(`${served.address}/plants/${genet}`);
    await page.getByRole('button', { name: /^Work out \d+ traits/ }).click();
    const from = page.getByRole('button', { name: /^Where from/ }).first();
    await from.waitFor(long);
    await from.click();
    await page.locator('.where-total').waitFor(long);
    const wide: string[] = [];
    const look = async (name: string): Promise<void> => {
      const width = await page.evaluate(() => document.documentElement.scrollWidth);
      if (width > narrowPhone.width) wide.push(`${name}: ${width}`);
    };
    await look('a plant');
    await traitPage(browser);
    await look('a trait');
    await page.goto(`${served.address}/compare?trait=spike-length&best=5&unnoted=true`);
    await page.getByText('among the best 5').first().waitFor(long);
    await look('Compare');
    await browser.close();
    expect(wide).toEqual([]);
    expect(browser.errors).toEqual([]);
  });
});
