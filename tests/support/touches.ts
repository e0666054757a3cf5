import type { Locator, Page } from 'playwright-core';

/** Touches a screen and counts how often, and how long one note took. */
export class Touches {
  page: Page;
  /** Touches for each note, by its sort. */
  readonly #perNote = new Map<string, number[]>();
  readonly #seconds = new Map<string, number[]>();
  #now = 0;

  constructor(page: Page) {
    this.page = page;
  }

  async touch(name: string | RegExp | Locator): Promise<void> {
    const target =
      typeof name === 'string' || name instanceof RegExp
        ? this.page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).first()
        : name;
    await target.tap();
    this.#now += 1;
  }

  /** Counts the touches of one note, and the seconds from the first of them until the next stop is shown. */
  async note(sort: string, take: () => Promise<void>): Promise<void> {
    this.#now = 0;
    const begun = performance.now();
    await take();
    add(this.#perNote, sort, this.#now);
    add(this.#seconds, sort, (performance.now() - begun) / 1000);
  }

  /** Notes, most touches and mean seconds by sort. */
  report(): Record<string, { notes: number; mostTouches: number; meanSeconds: number }> {
    return Object.fromEntries(
      [...this.#perNote].map(([sort, touches]) => {
        const seconds = this.#seconds.get(sort)!;
        const mean = seconds.reduce((sum, one) => sum + one, 0) / seconds.length;
        return [
          sort,
          { notes: touches.length, mostTouches: Math.max(...touches), meanSeconds: Number(mean.toFixed(2)) },
        ];
      }),
    );
  }
}

function add(to: Map<string, number[]>, key: string, value: number): void {
  to.set(key, [...(to.get(key) ?? []), value]);
}
