import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  breaches,
  desk,
  hasBrowser,
  narrowPhone,
  type OpenBrowser,
  openBrowser,
} from '../support/browser.ts';
import { type RunningKeelrow, startKeelrow } from '../support/running-keelrow.ts';

const long = { timeout: 60_000 };

/** A small garden: twelve genets that differ by 5 cm each, two plants of each noted in three years, and their habit. */
async function plantGarden(address: string): Promise<void> {
  const add = async (kind: string, row: object): Promise<void> => {
    const response = await fetch(`${address}/api/records/${kind}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ row }),
    });
    if (!response.ok) throw new Error(`${kind}: ${await response.text()}`);
  };
  await add('traits', { code: 'height', name: 'Height', sort: 'measured', unit: 'cm' });
  const classes = ['bare', 'leafy'];
  await add('traits', { code: 'habit', name: 'Habit', sort: 'classed', classes });
  const scatter = [2, -3, 1, 3, -2, 0, -1];
  let turn = 0;
  for (let genet = 1; genet <= 12; genet++) {
    await add('genets', { code: `G${genet}` });
    for (const plant of [`G${genet}/1`, `G${genet}/2`]) {
      await add('plants', { code: plant, genet: `G${genet}` });
      for (const year of [2024, 2025, 2026]) {
        const height = 60 + 5 * genet + scatter[turn++ % scatter.length]!;
        await add('notes', { plant, trait: 'height', on: `${year}-06-01`, value: height });
      }
      await add('notes', { plant, trait: 'habit', on: '2026-06-01', value: classes[genet % 2]! });
    }
  }
}

describe.skipIf(!hasBrowser)('briefs', () => {
  let served: RunningKeelrow;
  let browser: OpenBrowser;
  beforeEach(async () => {
    served = await startKeelrow(['serve', '--open']);
    await plantGarden(served.address);
  });
  afterEach(async () => {
    await browser.close();
    await served.stop();
  });

  async function makeBrief(page: Page): Promise<void> {
    await page.goto(`${served.address}/briefs`);
    await page.getByText('Nothing is wanted yet').waitFor();
    await page.getByRole('button', { name: 'Make a brief' }).click();
    const form = page.getByRole('dialog');
    await form.getByRole('textbox', { name: /^Name/ }).fill('Tall and bare');
    await form.getByRole('textbox', { name: /^Code/ }).fill('tall');
    await form.getByRole('button', { name: 'Make it' }).click();
    await page.getByRole('heading', { name: 'Tall and bare', level: 1 }).waitFor();
  }

  async function addHeight(page: Page, least: string): Promise<void> {
    await page.getByRole('button', { name: 'Add a limit' }).click();
    const form = page.getByRole('dialog');
    await form.getByRole('combobox', { name: 'Trait' }).selectOption('height');
    await form.getByRole('textbox', { name: 'At least, cm' }).fill(least);
    await form.getByRole('button', { name: 'Add it' }).click();
    await form.waitFor({ state: 'detached' });
  }

  it('are made by hand, matched at once, and matched anew when a limit is changed', async () => {
    browser = await openBrowser(desk);
    const { page } = browser;
    await makeBrief(page);
    await addHeight(page, '110');
    const table = page.getByRole('region', { name: 'Plants by their chance to meet the brief' });
    await table.waitFor(long);
    const rows = table.locator('tbody tr');
    const chanceOf = (code: string) =>
      rows
        .filter({ has: page.getByRole('link', { name: code, exact: true }) })
        .locator('.match-all')
        .textContent();
    expect(await rows.count()).toBe(12);
    expect(await rows.first().textContent()).toContain('G12');
    expect(await chanceOf('G12')).toMatch(/9\d%/);
    expect(await chanceOf('G1')).toMatch(/<1%/);
    expect(await rows.last().textContent()).toMatch(/too small: about \d+/);

    // Height must not be all: a class as a wish, with its weight.
    await page.getByRole('button', { name: 'Add a limit' }).click();
    const form = page.getByRole('dialog');
    await form.getByRole('button', { name: 'Add it' }).click();
    await form.getByText('choose the trait that is limited').waitFor();
    await form.getByRole('combobox', { name: 'Trait' }).selectOption('habit');
    await form.getByRole('checkbox', { name: 'bare' }).check();
    await form.getByRole('radio', { name: /a wish/ }).check();
    await form.getByRole('textbox', { name: 'Weight of the wish' }).fill('2');
    await form.getByRole('button', { name: 'Add it' }).click();
    await page.getByRole('columnheader', { name: /wish Habit/ }).waitFor(long);

    // A must that is harder is met with a smaller chance.
    await page.getByRole('button', { name: /must Height at least 110 cm/ }).click();
    await form.getByRole('textbox', { name: 'At least, cm' }).fill('125');
    await form.getByRole('button', { name: 'Store the change' }).click();
    await page.getByRole('columnheader', { name: /at least 125/ }).waitFor(long);
    expect(await chanceOf('G12')).toMatch(/<1%|\b\d%/);
    expect(await breaches(page)).toEqual([]);

    await page.getByRole('button', { name: /wish 2 Habit/ }).click();
    await form.getByRole('button', { name: 'Take it out of the brief' }).click();
    await expect.poll(() => page.getByRole('button', { name: /wish 2 Habit/ }).count()).toBe(0);
    expect(browser.errors).toEqual([]);
  });

  it('are matched on a phone 360 pixels wide, each limit below a fold', async () => {
    browser = await openBrowser(narrowPhone, 'dark');
    const { page } = browser;
    await makeBrief(page);
    await addHeight(page, '110');
    const cards = page
      .getByRole('list', { name: 'Plants by their chance to meet the brief' })
      .locator('> li');
    await cards.first().waitFor(long);
    expect(await cards.first().textContent()).toContain('G12');
    await cards.last().getByText('Each limit').click();
    expect(await cards.last().textContent()).toMatch(/about [\d.]+ cm .*wanted at least 110 cm/);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      narrowPhone.width,
    );
    expect(await breaches(page)).toEqual([]);
    expect(browser.errors).toEqual([]);
  });

  it('say what is wrong with a limit, and keep what was typed', async () => {
    browser = await openBrowser(desk);
    const { page } = browser;
    await makeBrief(page);
    await page.getByRole('button', { name: 'Add a limit' }).click();
    const form = page.getByRole('dialog');
    await form.getByRole('combobox', { name: 'Trait' }).selectOption('height');
    await form.getByRole('textbox', { name: 'At least, cm' }).fill('110');
    await form.getByRole('textbox', { name: 'At most, cm' }).fill('90');
    await form.getByRole('button', { name: 'Add it' }).click();
    await form.getByText('no plant can meet it: the two ends are exchanged').waitFor();
    expect(await form.getByRole('textbox', { name: 'At least, cm' }).inputValue()).toBe('110');
    expect(browser.errors).toEqual([]);
  });
});
