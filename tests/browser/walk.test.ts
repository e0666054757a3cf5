import type { Programme } from '@keelrow/records';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  breaches,
  hasBrowser,
  narrowPhone,
  type OpenBrowser,
  openBrowser,
  phone,
} from '../support/browser.ts';
import { KillableKeelrow } from '../support/killable-keelrow.ts';
import { newPlace } from '../support/stores.ts';
import { faultsInTheSun } from '../support/sunlight.ts';
import { Touches } from '../support/touches.ts';
import { lastYear, makeWalkGarden, walkGarden } from '../support/walk-garden.ts';
import { letIn, pictureOf, startRound } from '../support/walking.ts';

/** A folder to put a picture of each entry in, for one who wants to look at them. */
const pictures = process.env.KEELROW_WALK_PICTURES;

/** The key that offers ten numbers from so many tens on. */
const ten = (tens: number): string => `${tens}_ (${tens * 10} and more)`;

interface NoteStored {
  readonly plant: string;
  readonly trait: string;
  readonly state: string;
  readonly value: number | string | null;
  readonly remark: string | null;
}

describe.skipIf(!hasBrowser)('the walk, 390 x 844, by touch', () => {
  let place: Awaited<ReturnType<typeof newPlace>>;
  let programme: Programme;
  let server: KillableKeelrow;
  let browser: OpenBrowser;
  let page: Page;
  beforeEach(async () => {
    place = await newPlace('sqlite');
    programme = await makeWalkGarden(place.where, new Date().getUTCFullYear());
    server = new KillableKeelrow(place.where, []);
    const link = await server.start();
    browser = await openBrowser(phone);
    page = browser.page;
    await letIn(page, link, walkGarden.recorder);
  });
  afterEach(async () => {
    await browser.close();
    await server.kill();
    await programme.close();
    await place.remove();
  });

  /** Standing notes of this year in the records, all of them, each as often as it stands there. */
  async function stored(): Promise<NoteStored[]> {
    const rows = await programme.read
      .selectFrom('notes')
      .innerJoin('plants', 'plants.id', 'notes.plant')
      .innerJoin('traits', 'traits.id', 'notes.trait')
      .select([
        'plants.code as plant',
        'traits.code as trait',
        'notes.state as state',
        'notes.value_number as number',
        'notes.value_text as text',
        'notes.value_date as date',
        'notes.remark as remark',
      ])
      .where('notes.ended_act', 'is', null)
      .where('notes.on', '>=', `${new Date().getUTCFullYear()}-01-01`)
      .execute();
    return rows.map(({ number, text, date, state, ...row }) => ({
      ...row,
      state: state ?? 'seen',
      value: number ?? date ?? text,
    }));
  }
  const inOrder = (notes: readonly NoteStored[]): string[] =>
    notes
      .map(
        ({ plant, trait, state, value, remark }) =>
          `${plant} ${trait} ${state} ${value ?? ''} ${remark ?? ''}`,
      )
      .sort();
  const code = () => page.locator('.walk-code').evaluate((shown) => shown.firstChild?.textContent ?? '');
  const waitingNow = () => page.locator('.walk-waiting').textContent();

  it('takes 30 plants off line, through a reload and a restart, and hands each note over exactly once', async () => {
    await startRound(page, { traits: ['Spikes', 'Height', 'First flower'], way: 'Serpentine' });
    await page.context().setOffline(true);
    const touches = new Touches(page);
    const expected: NoteStored[] = [];
    const seen = (plant: string, trait: string, value: number | string | null, state = 'seen'): void =>
      void expected.push({ plant, trait, state, value, remark: null });
    const at = async (plant: string, trait: string): Promise<void> => {
      await page.getByRole('heading', { level: 2, name: trait }).waitFor();
      await expect.poll(code, { timeout: 10_000 }).toBe(plant);
    };
    const twoTouches = async (number: number): Promise<void> => {
      await touches.touch(ten(Math.floor(number / 10)));
      await touches.touch(String(number));
    };
    const today = await page.evaluate(() => new Date().toISOString().slice(0, 10));

    for (const [index, plant] of walkGarden.plants.entries()) {
      if (index === 12) {
        // In the middle of an entry the page is loaded anew without a network: all is as it was left.
        await at(plant, 'Spikes');
        await page.getByRole('button', { name: ten(1), exact: true }).tap();
        await page.reload();
        await at(plant, 'Spikes');
        expect(await page.getByRole('button', { name: '17', exact: true }).count()).toBe(1);
        expect(await waitingNow()).toContain(`${expected.length} waiting`);
        await page.getByRole('button', { name: '13', exact: true }).tap();
        seen(plant, 'spike-count', 13);
      } else if (index === 20) {
        // Another window, as after a restart: the round goes on where it stopped.
        await at(plant, 'Spikes');
        await page.close();
        page = await browser.page.context().newPage();
        touches.page = page;
        await page.goto(`${server.address}/walk`);
        await page.getByText(`next ${plant}`).waitFor();
        await page.locator('.round-open').tap();
        await at(plant, 'Spikes');
        await page.getByRole('button', { name: 'Not yet', exact: true }).tap();
        seen(plant, 'spike-count', null, 'not yet');
      } else {
        await at(plant, 'Spikes');
        const before = lastYear(index).spikes;
        expect(await page.locator('.walk-before').textContent()).toContain(String(before));
        expect(await page.locator('.walk-box').textContent()).toBe('');
        await touches.note('counted', () => twoTouches(before + 2));
        seen(plant, 'spike-count', before + 2);
      }
      if (index === 4 || index === 8) {
        await at(plant, 'Height');
        await touches.note('state', () => touches.touch(index === 4 ? 'Dead' : 'Missing'));
        seen(plant, 'height', null, index === 4 ? 'dead' : 'missing');
        continue;
      }
      await at(plant, 'Height');
      if (index === 6) {
        await touches.note('state', () => touches.touch('Skip'));
        seen(plant, 'height', null, 'skipped');
      } else {
        await touches.note('measured', () => twoTouches(lastYear(index).height + 5));
        seen(plant, 'height', lastYear(index).height + 5);
      }
      await at(plant, 'First flower');
      if (index % 3 === 0) {
        await touches.note('state', () => touches.touch('Not yet'));
        seen(plant, 'first-flower', null, 'not yet');
      } else {
        await touches.note('staged', () => touches.touch(/^First flower today/));
        seen(plant, 'first-flower', today);
      }
    }

    await page.getByRole('heading', { name: 'All noted' }).waitFor();
    expect(await waitingNow()).toContain(`${expected.length} waiting`);
    // One undo, and the walk goes back to where it was entered.
    await page.getByRole('button', { name: /^Undo/ }).tap();
    await at(walkGarden.plants[29]!, 'First flower');
    await page.getByRole('button', { name: /^Yesterday/ }).tap();
    expected.pop();
    const yesterday = new Date(Date.parse(`${today}T00:00:00Z`) - 86_400_000).toISOString().slice(0, 10);
    seen(walkGarden.plants[29]!, 'first-flower', yesterday);
    await page.getByRole('heading', { name: 'All noted' }).waitFor();
    expect(await stored()).toEqual([]);

    await page.context().setOffline(false);
    await expect.poll(waitingNow, { timeout: 30_000 }).toBe('0 waiting');
    expect(inOrder(await stored())).toEqual(inOrder(expected));

    const report = touches.report();
    console.log('touches and seconds per note', JSON.stringify(report, null, 1));
    expect(report.counted!.mostTouches).toBeLessThanOrEqual(2);
    expect(report.measured!.mostTouches).toBeLessThanOrEqual(2);
    expect(report.staged!.mostTouches).toBe(1);
    expect(report.state!.mostTouches).toBe(1);
    expect(
      browser.errors.filter((error) => !/ERR_INTERNET_DISCONNECTED|Failed to fetch/.test(error)),
    ).toEqual([]);
  }, 300_000);

  it('asks about slips, refuses in words, keeps what was typed, and takes remarks, labels and yesterday along', async () => {
    await startRound(page, { traits: ['Height'], way: 'By number' });
    await page.context().setOffline(true);
    const plants = walkGarden.plants;
    const press = (name: string | RegExp) =>
      page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).tap();
    const type = async (keys: string): Promise<void> => {
      for (const key of keys) await press(key);
    };
    const rub = async (times: number): Promise<void> => {
      for (let time = 0; time < times; time++) await press('Rub out the last figure');
    };
    const box = () => page.locator('.walk-box').textContent();
    await press('Keys');

    // A point slipped: asked about at once, mended.
    await type('10.2');
    await press('Keep');
    expect(await page.getByRole('alertdialog').textContent()).toMatch(
      /^10\.2 cm\? In \d{4} this plant had 100 cm; that was 9\.8 times as much\./,
    );
    // Under the thumb lies the answer that changes nothing.
    const [mend, keep] = await Promise.all(
      ['Mend', 'Keep 10.2 cm'].map((name) => page.getByRole('button', { name, exact: true }).boundingBox()),
    );
    expect(mend!.y).toBeGreaterThan(keep!.y);
    expect(mend!.height).toBeGreaterThan(keep!.height);
    await press('Mend');
    expect(await box()).toBe('10.2cm');
    await rub(2);
    await type('9');
    await press('Keep');
    await expect.poll(code).toBe(plants[1]);

    // Out of limits: refused with words, kept in the box, over a reload as well.
    await type('999');
    await press('Keep');
    expect(await page.getByRole('alert').textContent()).toBe(
      '999 cm is above the most for Height, 250 cm; mend the value or the trait’s limit',
    );
    await page.reload();
    await expect.poll(box).toBe('999cm');
    await rub(3);
    // A remark is on the disk at once, and stays with the value that comes after it.
    await press(/^Remark: /);
    await page.getByRole('textbox', { name: 'Remark' }).fill('broken stem');
    await press('Keep the remark');
    await expect.poll(waitingNow).toContain('2 waiting');
    await type('95');
    await press('Keep');
    await expect.poll(code).toBe(plants[2]);

    // Far off, and right: kept after the question. Its label is lost.
    await press('Label lost');
    await page.locator('.walk-mark').waitFor();
    await type('20');
    await press('Keep');
    await press('Keep 20 cm');
    await expect.poll(code).toBe(plants[3]);

    // Yesterday is one touch away. By a recorder another identity is a note for the owner.
    await press(/^Today .*day of these notes/);
    await press('Is another');
    for (const key of ['2', '8'])
      await page.locator('.walk-tail-keys').getByRole('button', { name: key, exact: true }).tap();
    await press('2031-004-28');
    await press('Keep the note');
    await page.locator('.walk-mark', { hasText: 'label wrong' }).waitFor();
    await type('110');
    await press('Keep');
    await expect.poll(code).toBe(plants[4]);

    // To a plant by the tail of its code, and by the plan.
    await press(/^Find: /);
    for (const key of ['1', '7', '/', '1'])
      await page.locator('.walk-tail-keys').getByRole('button', { name: key, exact: true }).tap();
    await press('2031-004-17/1');
    await expect.poll(code).toBe('2031-004-17/1');
    await press(/^Plan of bed-4/);
    await press('2031-004-23/1');
    await expect.poll(code).toBe('2031-004-23/1');

    await page.context().setOffline(false);
    await expect.poll(waitingNow, { timeout: 30_000 }).toBe('0 waiting');
    const note = (
      plant: string | undefined,
      trait: string,
      value: number | string,
      remark: string | null = null,
    ) => ({
      plant: plant!,
      trait,
      state: 'seen',
      value,
      remark,
    });
    expect(inOrder(await stored())).toEqual(
      inOrder([
        note(plants[0], 'height', 109),
        note(plants[1], 'height', 95, 'broken stem'),
        note(plants[2], 'label', 'lost'),
        note(plants[2], 'height', 20),
        note(plants[3], 'label', 'wrong', 'seems to be 2031-004-28'),
        note(plants[3], 'height', 110),
      ]),
    );
    const days = await programme.read
      .selectFrom('notes')
      .select('on')
      .where('value_number', '=', 110)
      .execute();
    const today = await page.evaluate(() => Date.now());
    expect(days).toEqual([{ on: new Date(today - 86_400_000).toISOString().slice(0, 10) }]);
  }, 180_000);

  it('has an entry for each sort that is read in the sun and met by a thumb, and keeps pictures and memos', async () => {
    await page.addInitScript(() => {
      // A tone in place of a microphone: the recorder itself is the browser's own.
      navigator.mediaDevices.getUserMedia = async () => {
        const sound = new AudioContext();
        const tone = sound.createOscillator();
        const to = sound.createMediaStreamDestination();
        tone.connect(to);
        tone.start();
        return to.stream;
      };
    });
    const names = [
      'Spikes',
      'Height',
      'First flower',
      'Lodging',
      'Stem colour',
      'Banner',
      'Cut back',
      'Picture',
      'Memo',
      'Remark',
    ];
    await startRound(page, { traits: names, way: 'Row by row' });
    const found: Record<string, string[]> = {};
    const look = async (name: string): Promise<void> => {
      await page.waitForTimeout(200);
      const faults = [...(await breaches(page)), ...(await faultsInTheSun(page))];
      if (faults.length > 0) found[name] = faults;
      if (pictures) await page.screenshot({ path: `${pictures}/${name}.png` });
    };
    const press = (name: string | RegExp) =>
      page
        .getByRole('button', typeof name === 'string' ? { name, exact: true } : { name })
        .first()
        .tap();
    const trait = (name: string) => page.getByRole('heading', { level: 2, name }).waitFor();

    await look('counted, tens');
    await press(ten(1));
    await look('counted, units');
    await press('Keys');
    await look('counted, keys');
    await press('Tally');
    for (let tap = 0; tap < 12; tap++) await press('Tap once for each');
    await look('counted, tally');
    await press('Keep 12');
    await trait('Height');
    await look('measured');
    await press(ten(1));
    await press('12');
    await page.getByRole('alertdialog').waitFor();
    await look('measured, asked');
    await press('Keep 12 cm');
    await trait('First flower');
    await look('staged');
    await press('Another day');
    await look('staged, calendar');
    await press('Close');
    await press(/^Yesterday/);
    await trait('Lodging');
    await look('scored');
    await press('7');
    await trait('Stem colour');
    await look('classed');
    await press('flushed');
    await trait('Banner');
    await look('coloured');
    await press('blue-violet');
    await look('coloured, shades');
    await press('blue-violet, middling, strong');
    await trait('Cut back');
    await look('dated');
    await press(/^Today/);
    await trait('Picture');
    await look('pictured');
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'flower.png', mimeType: 'image/png', buffer: await pictureOf(page) });
    await trait('Memo');
    await look('spoken');
    await press('Speak');
    await page.waitForTimeout(1200);
    await press(/^Stop and keep/);
    await trait('Remark');
    await page.getByRole('textbox', { name: 'Remark' }).fill('keel dark');
    await look('written');
    for (const [name, button] of [
      ['find', /^Find: /],
      ['plan', /^Plan of/],
      ['remark', /^Remark: /],
      ['another', /another$/],
    ] as const) {
      await press(button);
      if (name === 'find')
        await page.locator('.walk-tail-keys').getByRole('button', { name: '1', exact: true }).tap();
      await look(name);
      await press('Close');
    }
    await press('Keep');
    // On the disk when the next stop is shown; before that nothing waits either.
    await expect.poll(code).toBe(walkGarden.plants[1]);
    await expect.poll(waitingNow, { timeout: 30_000 }).toBe('0 waiting');
    expect(found).toEqual({});

    const kept = await stored();
    expect(kept.map(({ trait }) => trait).sort()).toEqual([
      'banner-colour',
      'cut-back',
      'first-flower',
      'height',
      'lodging',
      'memo',
      'picture',
      'remark',
      'spike-count',
      'stem-colour',
    ]);
    const files = await programme.read
      .selectFrom('photos')
      .select(['hash', 'media_type', 'width_px'])
      .execute();
    expect(files).toHaveLength(2);
    expect(files.find(({ width_px }) => width_px !== null)).toMatchObject({
      media_type: 'image/jpeg',
      width_px: 1600,
    });
    expect(files.find(({ width_px }) => width_px === null)?.media_type).toMatch(/^audio\//);
    for (const { hash } of files) {
      const status = await page.evaluate(async (of) => (await fetch(`/api/photos/${of}`)).status, hash);
      expect(status).toBe(200);
    }
    expect(browser.errors).toEqual([]);
  }, 240_000);

  it('keeps every key in sight, says that the phone is shut out, and leads to what waits and back', async () => {
    await startRound(page, { traits: ['Height', 'Banner'], way: 'By number' });
    const press = (name: string | RegExp) =>
      page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).tap();
    const inSight = async (): Promise<void> => {
      await page.waitForTimeout(200);
      const foot = (await page.locator('.walk-foot').boundingBox())!.y;
      for (const name of ['Not yet', 'Skip', 'Dead', 'Missing', 'Label lost', 'Is another']) {
        const key = (await page.getByRole('button', { name, exact: true }).boundingBox())!;
        expect(key.y + key.height, name).toBeLessThanOrEqual(foot);
      }
      expect(await faultsInTheSun(page)).toEqual([]);
    };
    await press('Label lost');
    await page.locator('.walk-mark').waitFor();
    expect(await page.locator('.walk-pad .walk-key').count()).toBe(24);
    await inSight();
    await page.setViewportSize(narrowPhone);
    await inSight();
    await page.setViewportSize(phone);

    await expect.poll(waitingNow, { timeout: 30_000 }).toBe('0 waiting');
    expect(await page.locator('.walk-stuck').count()).toBe(0);
    await page.route('**/api/phone/facts', (route) =>
      route.fulfill({ status: 401, contentType: 'application/json', body: '{"problem":"not let in"}' }),
    );
    await press(ten(10));
    await press('104');
    await page.getByRole('heading', { level: 2, name: 'Banner' }).waitFor();
    await page.getByText('This phone is not let in any more; its notes stay on it.').waitFor();
    await inSight();
    expect(await breaches(page)).toEqual([]);
    for (const link of ['1 waiting', /^This phone is not let in/]) {
      await page.getByRole('link', { name: link }).tap();
      await page.getByRole('button', { name: 'Save all to a file' }).waitFor();
      await page.goBack();
      await page.getByRole('heading', { level: 2, name: 'Banner' }).waitFor();
      expect(await code()).toBe(walkGarden.plants[0]);
    }
  }, 120_000);

  it('goes by keyboard in the office, and tells why the microphone is refused', async () => {
    await startRound(page, { traits: ['Spikes', 'First flower', 'Memo'], way: 'By number' });
    // Enter keeps what was typed, also where a pad was chosen by touch before.
    await page.getByRole('button', { name: 'Keys', exact: true }).tap();
    await page.keyboard.type('99999');
    await page.keyboard.press('Enter');
    expect(await page.getByRole('alert').textContent()).toContain('above the most for Spikes');
    await page.keyboard.press('Escape');
    const heading = (name: string) => page.getByRole('heading', { level: 2, name }).waitFor();
    await heading('Spikes');
    await page.keyboard.type('14');
    expect(await page.locator('.walk-box').textContent()).toBe('14');
    await page.keyboard.press('Enter');
    await heading('First flower');
    await page.keyboard.press('t');
    await heading('Memo');
    await page.getByRole('button', { name: 'Speak' }).tap();
    expect(await page.getByRole('alert').textContent()).toMatch(/type the remark|Type the remark/);
    await page.keyboard.press('Control+z');
    await heading('First flower');
    await page.keyboard.press('n');
    await heading('Memo');
    await page.keyboard.press('s');
    await expect.poll(code).toBe(walkGarden.plants[1]);
    await page.keyboard.press('ArrowRight');
    await expect.poll(code).toBe(walkGarden.plants[2]);
    await expect.poll(waitingNow, { timeout: 30_000 }).toBe('0 waiting');
    expect(inOrder(await stored())).toEqual(
      inOrder([
        { plant: walkGarden.plants[0]!, trait: 'spike-count', state: 'seen', value: 14, remark: null },
        { plant: walkGarden.plants[0]!, trait: 'first-flower', state: 'not yet', value: null, remark: null },
        { plant: walkGarden.plants[0]!, trait: 'memo', state: 'skipped', value: null, remark: null },
      ]),
    );
  }, 120_000);
});
