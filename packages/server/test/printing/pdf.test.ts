import { inflateSync } from 'node:zlib';
import type { LabelForm } from '@keelrow/breeding/labels';
import decodeQR from 'qr/decode.js';
import { describe, expect, it } from 'vitest';
import { measureText, runsOf } from '../../src/printing/faces.ts';
import { labelPages, qrModules } from '../../src/printing/label-pages.ts';
import { printPages } from '../../src/printing/pdf.ts';

/** An inch is 25.4 mm and 72 points: ISO 32000-1, 8.3.2.3 (default user space), and the inch of 1959. */
const toMm = 25.4 / 72;
const texts = [
  { code: '2031-004-3/1', line: 'Żółta Łąka × Ďáblík', more: '' },
  { code: '2031-004-3/2', line: 'Ấu Cơ', more: '' },
];

async function printed(form: LabelForm): Promise<Buffer> {
  const { pages } = await labelPages(texts, { form, lead: 'code', copies: 1 });
  return printPages(
    'Labels',
    new Date(0),
    pages.map(({ width, height, labels }) => ({ width, height, parts: labels })),
  );
}

const mediaBoxes = (pdf: Buffer): number[][] =>
  [...pdf.toString('latin1').matchAll(/\/MediaBox \[([^\]]+)\]/g)].map((box) =>
    box[1]!.split(' ').map(Number),
  );

/** Contents of the pages, unpacked. */
function contents(pdf: Buffer): string[] {
  const found: string[] = [];
  const text = pdf.toString('latin1');
  for (const { index, 0: head } of text.matchAll(/stream\r?\n/g)) {
    if (text.slice(index - 3, index) === 'end') continue;
    try {
      found.push(inflateSync(pdf.subarray(index + head.length)).toString('latin1'));
    } catch {
      // Another kind of stream.
    }
  }
  return found.filter((stream) => / re\n/.test(stream) && / cm\n/.test(stream));
}

/** Rectangles on the page in mm from its upper left corner, by following the transformations as a viewer does. */
function rectangles(content: string, pageHeight: number): { x: number; y: number; w: number; h: number }[] {
  let now = [1, 0, 0, 1, 0, 0];
  const kept: number[][] = [];
  const found: { x: number; y: number; w: number; h: number }[] = [];
  const times = (m: number[], n: number[]): number[] => [
    m[0]! * n[0]! + m[1]! * n[2]!,
    m[0]! * n[1]! + m[1]! * n[3]!,
    m[2]! * n[0]! + m[3]! * n[2]!,
    m[2]! * n[1]! + m[3]! * n[3]!,
    m[4]! * n[0]! + m[5]! * n[2]! + n[4]!,
    m[4]! * n[1]! + m[5]! * n[3]! + n[5]!,
  ];
  for (const line of content.split('\n')) {
    const parts = line.trim().split(/\s+/);
    const operator = parts.at(-1);
    const numbers = parts.slice(0, -1).map(Number);
    if (operator === 'q') kept.push(now);
    else if (operator === 'Q') now = kept.pop()!;
    else if (operator === 'cm') now = times(numbers, now);
    else if (operator === 're') {
      const [x, y, w, h] = numbers as [number, number, number, number];
      const at = (px: number, py: number): [number, number] => [
        px * now[0]! + py * now[2]! + now[4]!,
        px * now[1]! + py * now[3]! + now[5]!,
      ];
      const [a, b] = [at(x, y), at(x + w, y + h)];
      found.push({
        x: Math.min(a[0], b[0]) * toMm,
        y: (pageHeight - Math.max(a[1], b[1])) * toMm,
        w: Math.abs(a[0] - b[0]) * toMm,
        h: Math.abs(a[1] - b[1]) * toMm,
      });
    }
  }
  return found;
}

describe('printed labels', () => {
  it('have pages of their true size', async () => {
    const boxes = mediaBoxes(await printed({ kind: 'single', size: { width: 150, height: 20 } }));
    expect(boxes).toHaveLength(2);
    for (const [left, bottom, right, top] of boxes) {
      expect([left, bottom]).toEqual([0, 0]);
      expect(right! * toMm).toBeCloseTo(150, 3);
      expect(top! * toMm).toBeCloseTo(20, 3);
    }
    const grid = {
      paper: 'Letter',
      rows: 10,
      columns: 3,
      marginX: 5,
      marginY: 12,
      gapX: 3,
      gapY: 0,
    } as const;
    const [sheet] = mediaBoxes(await printed({ kind: 'sheet', grid, startAt: 1 }));
    // 8.5 × 11 in.
    expect(sheet![2]).toBeCloseTo(612, 3);
    expect(sheet![3]).toBeCloseTo(792, 3);
  });

  it.each([
    ['a stake', { width: 150, height: 20 }, false],
    ['a stake on end', { width: 20, height: 150 }, true],
  ] as const)(
    'have the QR code of %s in its true size and place, and it reads',
    async (_what, size, turned) => {
      const pdf = await printed({ kind: 'single', size });
      const rects = rectangles(contents(pdf)[0]!, (size.height * 72) / 25.4);
      const modules = qrModules('2031-004-3/1');
      // The last rectangle is the frame of the check character.
      const dark = rects.slice(0, -1);
      const [left, top] = [Math.min(...dark.map(({ x }) => x)), Math.min(...dark.map(({ y }) => y))];
      const side = Math.max(...dark.map(({ x, w }) => x + w)) - left;
      // 20 mm of height hold the code and four modules of quiet zone on either side.
      const module = 20 / (modules.length + 8);
      expect(side).toBeCloseTo(modules.length * module, 2);
      expect(Math.max(...dark.map(({ y, h }) => y + h)) - top).toBeCloseTo(modules.length * module, 2);
      expect(left).toBeCloseTo(4 * module, 2);
      expect(top).toBeCloseTo(turned ? 150 - 20 + 4 * module : 4 * module, 2);

      // Painted as a viewer would, eight pixels a module, it is read back.
      const scale = 8 / module;
      const pixels = Math.round((side + 8 * module) * scale);
      const data = new Uint8ClampedArray(pixels * pixels * 4).fill(255);
      for (const { x, y, w, h } of dark) {
        for (let row = Math.round((y - top) * scale); row < Math.round((y - top + h) * scale); row++) {
          for (
            let column = Math.round((x - left) * scale);
            column < Math.round((x - left + w) * scale);
            column++
          ) {
            data.fill(
              0,
              ((row + 32) * pixels + column + 32) * 4,
              ((row + 32) * pixels + column + 32) * 4 + 3,
            );
          }
        }
      }
      expect(decodeQR({ width: pixels, height: pixels, data })).toBe('2031-004-3/1');
    },
  );

  it('carry their faces with them, whatever Latin letters are in a name', async () => {
    const pdf = (await printed({ kind: 'single', size: { width: 100, height: 20 } })).toString('latin1');
    const used = new Set([...pdf.matchAll(/\/FontName \/(\S+)/g)].map((font) => font[1]));
    expect([...used].filter((name) => /Atkinson/.test(name!)).length).toBeGreaterThanOrEqual(1);
    expect([...used].some((name) => /NotoSans/.test(name!))).toBe(true);
    expect(pdf.match(/\/FontFile[23] /g)?.length).toBe(used.size);
    const missing: string[] = [];
    for (const { line } of texts) runsOf(line, 'heavy', (letter) => missing.push(letter));
    expect(missing).toEqual([]);
    expect(pdf).toContain('/PrintScaling');
  });

  it('say which letters cannot be printed', async () => {
    const { told } = await labelPages([{ code: 'A1', line: '桜', more: '' }], {
      form: { kind: 'single', size: { width: 60, height: 20 } },
      lead: 'code',
      copies: 1,
    });
    expect(told).toEqual(['桜 on A1 cannot be printed as it is']);
    expect(measureText('桜', 'heavy')).toBe(measureText('?', 'heavy'));
  });

  it('are refused in words where a code does not fit', async () => {
    const form: LabelForm = { kind: 'single', size: { width: 12, height: 8 } };
    await expect(labelPages(texts, { form, lead: 'code', copies: 1 })).rejects.toThrow(
      /does not fit in readable type/,
    );
  });
});
