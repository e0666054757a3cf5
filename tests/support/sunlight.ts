import type { Page } from 'playwright-core';

/**
 * What a wet thumb or a low sun would miss on the page as it stands: text of less than 7 to 1 (WCAG 2.2, 1.4.6), text
 * smaller than 16 px, and targets below 48 px (the larger of the sizes that platforms ask for).
 */
export const faultsInTheSun = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const top = document.querySelector('dialog[open]') ?? document.body;
    const parts = (colour: string): number[] => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const luminance = (colour: string): number => {
      const [r, g, b] = parts(colour)
        .slice(0, 3)
        .map((part) => part / 255)
        .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)) as [
        number,
        number,
        number,
      ];
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const groundOf = (element: Element | null): string => {
      for (let at = element; at; at = at.parentElement) {
        const colour = getComputedStyle(at).backgroundColor;
        if ((parts(colour)[3] ?? 1) > 0) return colour;
      }
      return 'rgb(255, 255, 255)';
    };
    const shown = (element: Element): boolean => {
      const box = element.getBoundingClientRect();
      return box.width > 2 && box.height > 2 && getComputedStyle(element).visibility === 'visible';
    };
    const faults: string[] = [];
    for (const element of top.querySelectorAll('*')) {
      const words = [...element.childNodes]
        .filter((node) => node.nodeType === Node.TEXT_NODE)
        .map((node) => node.textContent?.trim())
        .join('');
      if (words === '' || !shown(element) || element.closest('svg, script, style')) continue;
      const { color, fontSize } = getComputedStyle(element);
      const [a, b] = [luminance(color), luminance(groundOf(element))];
      const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      if (contrast < 7) faults.push(`${words}: contrast ${contrast.toFixed(2)}`);
      if (Number.parseFloat(fontSize) < 16) faults.push(`${words}: ${fontSize}`);
    }
    for (const target of top.querySelectorAll('button, a, textarea, label')) {
      const { width, height } = target.getBoundingClientRect();
      if (shown(target) && (width < 48 || height < 48)) {
        faults.push(
          `${target.textContent?.slice(0, 30)}: target of ${Math.round(width)} x ${Math.round(height)}`,
        );
      }
    }
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth > clientWidth) faults.push(`scrolls sideways: ${scrollWidth}`);
    for (const box of top.querySelectorAll('button')) {
      if (box.scrollWidth > box.clientWidth + 1)
        faults.push(`${box.textContent}: words wider than their key`);
    }
    const main = top.querySelector('.walk-main');
    if (main && main.scrollHeight > main.clientHeight + 1) {
      faults.push(`the walk scrolls: ${main.scrollHeight} in ${main.clientHeight}`);
    }
    return faults;
  });
