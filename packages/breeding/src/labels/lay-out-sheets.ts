import type { LabelDrawn, LabelSize } from './lay-out-label.ts';

/** Papers, width and height in mm: ISO 216; ANSI/ASME Y14.1 (8.5 × 11 in). */
export const papers = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
} as const satisfies Record<string, LabelSize>;

export type PaperName = keyof typeof papers;

/** A sheet of labels: a grid with equal margins left and right, above and below. Millimetres. */
export interface SheetGrid {
  readonly paper: PaperName;
  readonly rows: number;
  readonly columns: number;
  readonly marginX: number;
  readonly marginY: number;
  readonly gapX: number;
  readonly gapY: number;
}

/** Labels on sheets, or one by one on pages of their own size. */
export type LabelForm =
  | {
      readonly kind: 'sheet';
      readonly grid: SheetGrid /** Free place to begin at, from 1. */;
      readonly startAt: number;
    }
  | { readonly kind: 'single'; readonly size: LabelSize };

export interface PlacedLabel extends LabelSize, LabelDrawn {
  readonly x: number;
  readonly y: number;
}

export interface LabelPage extends LabelSize {
  readonly labels: readonly PlacedLabel[];
}

const least: LabelSize = { width: 10, height: 6 };
const most = 600;

/** Size of one label of a form. Throws RangeError, in words, where the form leaves none that could be printed. */
export function labelSizeOf(form: LabelForm): LabelSize {
  const size = form.kind === 'single' ? form.size : sizeInGrid(form.grid);
  const { width, height } = size;
  if (!(width >= least.width && height >= least.height)) {
    throw new RangeError(
      `a label of ${rounded(width)} × ${rounded(height)} mm is too small; at least ${least.width} × ${least.height} mm are needed`,
    );
  }
  if (width > most || height > most) throw new RangeError(`a label may measure at most ${most} mm`);
  return size;
}

function sizeInGrid({ paper, rows, columns, marginX, marginY, gapX, gapY }: SheetGrid): LabelSize {
  const { width, height } = papers[paper];
  return {
    width: (width - 2 * marginX - (columns - 1) * gapX) / columns,
    height: (height - 2 * marginY - (rows - 1) * gapY) / rows,
  };
}

/** Puts labels in their order on pages: row after row from the left; the first sheet from its first free place on. */
export function layOutSheets(labels: readonly LabelDrawn[], form: LabelForm): LabelPage[] {
  const size = labelSizeOf(form);
  if (form.kind === 'single')
    return labels.map((label) => ({ ...size, labels: [{ ...label, ...size, x: 0, y: 0 }] }));
  const { paper, rows, columns, marginX, marginY, gapX, gapY } = form.grid;
  const perPage = rows * columns;
  if (form.startAt < 1 || form.startAt > perPage) {
    throw new RangeError(`a sheet has the places 1 to ${perPage}; there is no place ${form.startAt}`);
  }
  const pages: { width: number; height: number; labels: PlacedLabel[] }[] = [];
  labels.forEach((label, at) => {
    const place = at + form.startAt - 1;
    const page = Math.floor(place / perPage);
    pages[page] ??= { ...papers[paper], labels: [] };
    const within = place % perPage;
    pages[page].labels.push({
      ...label,
      ...size,
      x: marginX + (within % columns) * (size.width + gapX),
      y: marginY + Math.floor(within / columns) * (size.height + gapY),
    });
  });
  return pages;
}

const rounded = (mm: number): string => mm.toFixed(1).replace(/\.0$/, '');
