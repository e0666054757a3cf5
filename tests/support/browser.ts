import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import { type BrowserContext, chromium, type Page } from 'playwright-core';

const executable = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
  existsSync,
);

/** Whether browser tests can run here; otherwise they count as skipped. */
export const hasBrowser = executable !== undefined;

export const desk = { width: 1440, height: 900 };
export const phone = { width: 390, height: 844 };
export const narrowPhone = { width: 360, height: 740 };

const quiet =
  '--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync';

export interface OpenBrowser {
  readonly page: Page;
  /** Errors that the page's code threw or wrote to its console. */
  readonly errors: string[];
  close(): Promise<void>;
}

/** Opens a browser with a profile of its own. */
export async function openBrowser(
  viewport: { width: number; height: number },
  colorScheme: 'light' | 'dark' = 'light',
  flags: readonly string[] = [],
): Promise<OpenBrowser> {
  const profile = mkdtempSync(join(tmpdir(), 'keelrow-browser-'));
  const context: BrowserContext = await chromium.launchPersistentContext(profile, {
    executablePath: executable!,
    args: [...quiet.split(' '), ...flags],
    viewport,
    colorScheme,
    hasTouch: viewport.width < 500,
    locale: 'en-GB',
    timezoneId: 'UTC',
  });
  const page = context.pages()[0] ?? (await context.newPage());
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return {
    page,
    errors,
    async close() {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

/** Breaches of WCAG 2.2 A and AA that axe finds on the page as it stands. */
export async function breaches(page: Page): Promise<string[]> {
  // The page's own policy forbids scripts from elsewhere; evaluating its text goes round that for the test alone.
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const run = (
      globalThis as unknown as {
        axe: {
          run(
            context: unknown,
            options: unknown,
          ): Promise<{ violations: { id: string; nodes: { html: string; failureSummary?: string }[] }[] }>;
        };
      }
    ).axe;
    const { violations } = await run.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    });
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary ?? ''}`),
    );
  });
}
