import {
  checkCharacter,
  layOutRound,
  mostTraits,
  type RoundOnPaper,
  type Shape,
} from '@keelrow/breeding/labels';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const measure = (text: string): number => [...text].length * 0.6;
const modules = Array.from({ length: 21 }, () => Array.from({ length: 21 }, () => true));

const round = (plants: number, traits: number): RoundOnPaper => ({
  number: 'R31-07',
  garden: 'A garden with a long name on the slope above the river',
  bed: 'bed-4 Long bed by the wall',
  traits: Array.from({ length: traits }, (_, at) => ({
    name: `Height of the spike ${at}`,
    unit: at % 2 === 0 ? 'cm' : null,
    classes: at === 1 ? ['green', 'flushed', 'dark'] : [],
    statesInWords: at === 1,
  })),
  rows: Array.from({ length: plants }, (_, at) => ({
    code: `2031-${100 + at}-12/3`,
    line: 'Grandmother of the slate blue ones',
    before: Array.from({ length: traits }, () => '’30: 112'),
  })),
});

const texts = (shapes: readonly Shape[]): string[] =>
  shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));

describe('round sheets', () => {
  it('hold every plant once, in order, with its check character and a box for each trait, within the page', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 120 }),
        fc.integer({ min: 1, max: mostTraits }),
        fc.constantFrom('A4' as const, 'Letter' as const),
        (plants, traits, paper) => {
          const pages = layOutRound(round(plants, traits), modules, paper, measure);
          const codes = pages.flatMap(({ shapes }) => texts(shapes).filter((text) => /^2031-/.test(text)));
          expect(codes).toEqual(round(plants, traits).rows.map(({ code }) => code));
          const boxes = pages.flatMap(({ shapes }) =>
            shapes.filter((shape) => shape.kind === 'box' && shape.height === 9 && shape.width < 60),
          );
          expect(boxes).toHaveLength(plants * traits);
          // Room to write in: at least 15 mm wide, 9 mm high.
          for (const box of boxes) expect(box.kind === 'box' && box.width).toBeGreaterThanOrEqual(15);
          pages.forEach(({ width, height, shapes }, page) => {
            expect(texts(shapes)).toContain(`R31-07 · page ${page + 1} of ${pages.length}`);
            expect(texts(shapes)).toContain(checkCharacter('R31-07'));
            expect(shapes.filter(({ kind }) => kind === 'qr')).toHaveLength(1);
            for (const shape of shapes) {
              const right = shape.x + (shape.kind === 'qr' ? shape.size : shape.width);
              const low =
                shape.y + (shape.kind === 'qr' ? shape.size : shape.kind === 'box' ? shape.height : 0);
              expect(shape.x).toBeGreaterThan(5);
              expect(right).toBeLessThan(width - 5);
              expect(low).toBeLessThan(height - 5);
            }
          });
        },
      ),
      { seed: 4, numRuns: 60 },
    );
  });

  it('are refused where there is no room for all traits', () => {
    expect(() => layOutRound(round(3, mostTraits + 1), modules, 'A4', measure)).toThrow(/second sheet/);
    expect(() => layOutRound(round(3, 0), modules, 'A4', measure)).toThrow(/at least one trait/);
  });
});
