import {
  checkCharacter,
  type LabelForm,
  labelSizeOf,
  layOutLabel,
  layOutSheets,
  type Measure,
  papers,
  type QrModules,
  type Shape,
} from '@keelrow/breeding/labels';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** A wide face: 0.62 em a letter. */
const measure: Measure = (text) => [...text].length * 0.62;
const modules: QrModules = Array.from({ length: 21 }, (_, row) =>
  Array.from({ length: 21 }, (_, column) => (row + column) % 2 === 0),
);

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}
const boxOf = (shape: Shape): Box => {
  switch (shape.kind) {
    case 'text':
      return {
        left: shape.x,
        right: shape.x + shape.width,
        top: shape.y - 0.66 * shape.size,
        bottom: shape.y + 0.2 * shape.size,
      };
    case 'qr': {
      // With the quiet zone of four modules that ISO/IEC 18004 asks for.
      const quiet = (4 * shape.size) / shape.modules.length;
      return {
        left: shape.x - quiet,
        right: shape.x + shape.size + quiet,
        top: shape.y - quiet,
        bottom: shape.y + shape.size + quiet,
      };
    }
    case 'box':
      return { left: shape.x, right: shape.x + shape.width, top: shape.y, bottom: shape.y + shape.height };
  }
};
const tolerance = 1e-6;
const apart = (a: Box, b: Box): boolean =>
  a.right <= b.left + tolerance ||
  b.right <= a.left + tolerance ||
  a.bottom <= b.top + tolerance ||
  b.bottom <= a.top + tolerance;

const word = fc.string({ minLength: 1, maxLength: 14, unit: fc.constantFrom(...'abcdefgMWil') });
const texts = fc.record({
  code: fc
    .string({ minLength: 1, maxLength: 18, unit: fc.constantFrom(...'0123456789-/X') })
    .map((c) => `2${c}`),
  line: fc.array(word, { maxLength: 12 }).map((words) => words.join(' ')),
  more: fc.array(word, { maxLength: 6 }).map((words) => words.join(' ')),
});
const sizes = fc.record({
  width: fc.integer({ min: 20, max: 200 }),
  height: fc.integer({ min: 10, max: 120 }),
});

describe('labels', () => {
  it('keep all within the label and nothing on anything else, with the whole code and its check character', () => {
    let drawn = 0;
    fc.assert(
      fc.property(texts, sizes, fc.constantFrom('code' as const, 'name' as const), (text, size, lead) => {
        let label: ReturnType<typeof layOutLabel>;
        try {
          label = layOutLabel(text, modules, size, measure, lead);
        } catch (error) {
          // Refused, in words, for want of room alone.
          expect(error).toBeInstanceOf(RangeError);
          expect((error as Error).message).toContain(text.code);
          expect(measure(text.code, 'heavy') * 2.2 + 4).toBeGreaterThan(
            Math.min(Math.max(size.width, size.height) - 4, 40),
          );
          return;
        }
        drawn += 1;
        const [width, height] = label.turned ? [size.height, size.width] : [size.width, size.height];
        const written = label.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
        expect(written).toContain(text.code);
        expect(written).toContain(checkCharacter(text.code));
        for (const box of label.shapes.map(boxOf)) {
          expect(box.left).toBeGreaterThanOrEqual(-tolerance);
          expect(box.top).toBeGreaterThanOrEqual(-tolerance);
          expect(box.right).toBeLessThanOrEqual(width + tolerance);
          expect(box.bottom).toBeLessThanOrEqual(height + tolerance);
        }
        // The check character stands in its own frame; all others keep clear of one another.
        const frame = label.shapes.findIndex(({ kind }) => kind === 'box');
        const check = label.shapes[frame + 1]!;
        expect(check.kind === 'text' && check.text).toBe(checkCharacter(text.code));
        const others = label.shapes.filter((shape) => shape !== check).map(boxOf);
        others.forEach((one, at) => {
          for (const other of others.slice(at + 1)) expect(apart(one, other)).toBe(true);
        });
        const smallest = Math.min(...label.shapes.map((shape) => (shape.kind === 'text' ? shape.size : 9)));
        expect(smallest).toBeGreaterThan(0.75 * 1.9);
      }),
      { seed: 4, numRuns: 3_000 },
    );
    expect(drawn).toBeGreaterThan(1_500);
  });

  it('tell what had to give way', () => {
    const text = { code: '2031-004-3/1', line: 'Grandmother’s tall slate blue of the long border', more: '' };
    const large = layOutLabel(text, modules, { width: 150, height: 20 }, measure);
    expect(large.told).toEqual([]);
    const small = layOutLabel(text, modules, { width: 32, height: 9 }, measure);
    expect(small.told).toEqual(['the name or parentage on 2031-004-3/1 is shortened']);
    const shown = small.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
    expect(shown.at(-1)).toMatch(/…$/);
    expect(() => layOutLabel(text, modules, { width: 14, height: 8 }, measure)).toThrow(
      /2031-004-3\/1 does not fit in readable type on a label of 14 × 8 mm; it needs at least \d+ × \d+ mm/,
    );
  });

  it('set the code of a stake label in type of 8 mm and more', () => {
    const stake = layOutLabel(
      { code: '2031-004-3/1', line: 'A × B', more: '' },
      modules,
      { width: 150, height: 20 },
      measure,
    );
    const code = stake.shapes.find((shape) => shape.kind === 'text' && shape.text === '2031-004-3/1');
    expect(code?.kind === 'text' && code.size).toBeGreaterThan(8);
  });
});

describe('sheets', () => {
  const grid = { paper: 'A4', rows: 8, columns: 3, marginX: 7, marginY: 13, gapX: 2.5, gapY: 0 } as const;
  const label = { shapes: [], turned: false, told: [] };

  it('begin at a free place and lie where the grid says', () => {
    const form: LabelForm = { kind: 'sheet', grid, startAt: 5 };
    const size = labelSizeOf(form);
    expect(size.width).toBeCloseTo((210 - 14 - 5) / 3, 10);
    expect(size.height).toBeCloseTo((297 - 26) / 8, 10);
    const pages = layOutSheets(
      Array.from({ length: 22 }, () => label),
      form,
    );
    expect(pages.map(({ labels }) => labels.length)).toEqual([20, 2]);
    // Place 5 is the second of the second row.
    expect(pages[0]!.labels[0]).toMatchObject({ x: 7 + size.width + 2.5, y: 13 + size.height });
    const last = pages[0]!.labels.at(-1)!;
    expect(last.x + last.width).toBeCloseTo(papers.A4.width - 7, 10);
    expect(last.y + last.height).toBeCloseTo(papers.A4.height - 13, 10);
  });

  it('refuse a place that is not there and labels too small to print', () => {
    expect(() => layOutSheets([label], { kind: 'sheet', grid, startAt: 25 })).toThrow(/places 1 to 24/);
    expect(() => labelSizeOf({ kind: 'sheet', grid: { ...grid, columns: 20 }, startAt: 1 })).toThrow(
      /too small/,
    );
    expect(() => labelSizeOf({ kind: 'single', size: { width: 700, height: 20 } })).toThrow(/at most/);
  });

  it('know the papers', () => {
    // ISO 216; a Letter sheet is 8.5 × 11 in.
    expect(papers.A4).toEqual({ width: 210, height: 297 });
    expect(papers.Letter.width / 25.4).toBeCloseTo(8.5, 10);
    expect(papers.Letter.height / 25.4).toBeCloseTo(11, 10);
  });
});
