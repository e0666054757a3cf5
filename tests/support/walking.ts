import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Lets a phone in as the office does: the owner's link makes a key, with which the phone's browser signs in. */
export async function letIn(page: Page, ownersLink: string, person: string): Promise<void> {
  const { origin, hash } = new URL(ownersLink);
  const signIn = await fetch(`${origin}/api/sign-in`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin },
    body: JSON.stringify({ key: new URLSearchParams(hash.slice(1)).get('key') }),
  });
  const cookie = signIn.headers.getSetCookie()[0]!.split(';')[0]!;
  const ask = async (method: string, path: string, body?: unknown): Promise<unknown> => {
    const answer = await fetch(`${origin}/api/${path}`, {
      method,
      headers: { cookie, origin, ...(body ? { 'content-type': 'application/json' } : {}) },
      ...(body ? { body: JSON.stringify(body) } : {}),
    });
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  };
  const { people } = (await ask('GET', 'phones')) as { people: { id: string; code: string }[] };
  const id = people.find(({ code }) => code === person)!.id;
  const { key } = (await ask('POST', 'phones/let-in', { person: id })) as { key: string };
  await page.goto(`${origin}/sign-in#key=${key}`);
  await page.waitForURL((url) => url.pathname !== '/sign-in');
}

/** Fetches the garden and the app onto the phone and begins a round in Bed 4. */
export async function startRound(
  page: Page,
  { traits, way }: { readonly traits: readonly string[]; readonly way: string },
): Promise<void> {
  await page.goto(new URL('/walk/new', page.url()).href);
  await page.getByRole('button', { name: /^Bed 4/ }).tap();
  for (const trait of traits) await page.getByRole('button', { name: new RegExp(`^${trait} `) }).tap();
  await page.getByRole('button', { name: new RegExp(`^${way}`) }).tap();
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((resolve) => setTimeout(resolve, 50));
  });
  await page.getByRole('button', { name: 'Start the walk' }).tap();
  await expect.poll(() => page.locator('.walk-code').count()).toBe(1);
}

/** A picture of 2400 by 1800 pixels, as from a camera. */
export async function pictureOf(page: Page): Promise<Buffer> {
  const base64 = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [2400, 1800];
    const brush = canvas.getContext('2d')!;
    brush.fillStyle = '#6a58c8';
    brush.fillRect(0, 0, 2400, 1800);
    return canvas.toDataURL('image/png').split(',')[1]!;
  });
  return Buffer.from(base64, 'base64');
}
