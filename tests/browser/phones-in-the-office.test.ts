import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { breaches, desk, hasBrowser, type OpenBrowser, openBrowser, phone } from '../support/browser.ts';
import { type RunningKeelrow, startKeelrow } from '../support/running-keelrow.ts';

const year = new Date().getUTCFullYear() - 1;

describe.skipIf(!hasBrowser)('phones in the office', () => {
  let served: RunningKeelrow;
  let browser: OpenBrowser;
  let made = 0;
  beforeAll(async () => {
    served = await startKeelrow(['serve', '--lan', '--host', '127.0.0.1']);
    browser = await openBrowser(desk);
    await browser.page.goto(served.link);
    await browser.page.getByRole('heading', { level: 1 }).first().waitFor();
    await store('traits', { code: 'height', name: 'Height', sort: 'measured', unit: 'cm' });
    await store('genets', { code: 'G-1' });
    await store('plants', { code: 'G-1/1', genet: 'G-1' });
  });
  afterAll(async () => {
    await browser.close();
    await served.stop();
  });

  /** Stores a record as the owner whose browser is open. */
  const store = (kind: string, row: object) =>
    browser.page.evaluate(
      async ([path, body]) => {
        const answer = await fetch(path!, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: body!,
        });
        if (!answer.ok) throw new Error(await answer.text());
      },
      [`/api/records/${kind}`, JSON.stringify({ row })] as const,
    );

  const post = (path: string, body: unknown, cookie = '') =>
    fetch(served.address + path, {
      method: 'POST',
      headers: { 'content-type': 'application/json', cookie },
      body: JSON.stringify(body),
    });
  const note = (cookie: string, value: number) =>
    post(
      '/api/phone/facts',
      {
        saidAt: `${year}-06-01T08:00:00Z`,
        facts: [
          {
            kind: 'notes',
            id: `018f0000-0000-7000-8000-${String(++made).padStart(12, '0')}`,
            row: { plant: 'G-1/1', trait: 'height', on: `${year}-06-01`, value },
          },
        ],
      },
      cookie,
    );

  /** Lets a phone of a new person in, by what the page shows. Returns its cookie. */
  async function letIn(initials: string): Promise<string> {
    const { page } = browser;
    await page.goto(`${served.address}/phones`);
    await page.getByLabel('Initials').fill(initials);
    await page.getByRole('button', { name: 'Show the code' }).click();
    await page.getByRole('img', { name: 'Code that lets one phone in' }).waitFor();
    expect(await page.locator('.way-in-left').textContent()).toMatch(/^(10 min 00|9 min 5\d) s$/);
    await page.getByText('The phone has no camera').click();
    const link = new URL((await page.locator('.way-in-link').textContent())!);
    expect([link.protocol, link.pathname]).toEqual(['https:', '/sign-in']);
    const signedIn = await post('/api/sign-in', { key: link.hash.replace('#key=', ''), device: 'Android' });
    expect(signedIn.status).toBe(200);
    await page.getByText(`phone-${initials} is in.`).waitFor();
    return signedIn.headers.get('set-cookie')!.split(';')[0]!;
  }

  it('are let in by a code, and two that contradict each other are heard and settled', async () => {
    const { page, errors } = browser;
    const [mara, joss] = [await letIn('MK'), await letIn('JT')];
    expect((await note(mara, 80)).status).toBe(200);
    expect((await note(joss, 120)).status).toBe(200);
    await page.goto(`${served.address}/unsettled`);
    await page.getByRole('heading', { name: 'G-1/1 Height' }).waitFor();
    for (const words of ['80 cm', '120 cm', 'on phone-MK', 'on phone-JT'])
      expect([words, await page.getByText(words).count()]).toEqual([words, 1]);
    const hers = page.locator('.case-note').filter({ hasText: '80 cm' });
    await hers.getByRole('radio').check();
    expect(await page.locator('del').textContent()).toBe('120 cm');
    const settle = page.getByRole('button', { name: 'Settle it' });
    expect(await settle.isDisabled()).toBe(true);
    await page.getByLabel('Why').fill('measured again');
    for (const viewport of [desk, phone]) {
      await page.setViewportSize(viewport);
      expect(await breaches(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(viewport.width);
    }
    await page.setViewportSize(desk);
    await settle.click();
    await page.getByRole('heading', { name: 'No notes contradict each other' }).waitFor();
    const { total } = await page.evaluate(async () => (await fetch('/api/records/notes')).json());
    expect(total).toBe(1);
    expect(errors).toEqual([]);
  });

  it('are shut out in two clicks, and their notes stay', async () => {
    const { page } = browser;
    const cookie = await letIn('LB');
    expect((await note(cookie, 81)).status).toBe(200);
    const before = await page.evaluate(async () => (await fetch('/api/records/notes')).json());
    await page.getByRole('button', { name: 'Shut out phone-LB' }).click();
    for (const viewport of [desk, phone]) {
      await page.setViewportSize(viewport);
      expect(await breaches(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(viewport.width);
    }
    await page.setViewportSize(desk);
    await page.getByRole('button', { name: 'Shut phone-LB out now' }).click();
    await page.getByText(/its notes stand/).waitFor();
    expect((await note(cookie, 90)).status).toBe(401);
    const after = await page.evaluate(async () => (await fetch('/api/records/notes')).json());
    expect(after.total).toBe(before.total);
  });

  it('are led through trusting this computer first', async () => {
    const { page } = browser;
    await page.goto(`${served.address}/phones`);
    await page.getByLabel('Who carries it').selectOption({ label: 'MK, recorder' });
    await page.getByRole('button', { name: 'Show the code' }).click();
    await page.getByRole('button', { name: /was never here/ }).click();
    await page.getByRole('img', { name: /trusting this computer/ }).waitFor();
    const helper = (await page.getByText(/^Or type/).textContent())!.replace('Or type ', '');
    expect(await page.locator('code').textContent()).toMatch(/^([0-9A-F]{2}:){31}[0-9A-F]{2}$/);
    const guide = await openBrowser(phone);
    await guide.page.goto(helper);
    expect(await guide.page.evaluate(() => document.documentElement.scrollWidth)).toBe(phone.width);
    const source = await guide.page.content();
    await guide.close();
    expect(source).toContain('Certificate Trust Settings');
  });
});
