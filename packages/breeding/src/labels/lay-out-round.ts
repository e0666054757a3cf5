import { fitText } from './fit-text.ts';
import { drawCode, type LabelSize } from './lay-out-label.ts';
import { type PaperName, papers } from './lay-out-sheets.ts';
import { below, capitals, type Measure, type QrModules, type Shape, type Weight } from './shapes.ts';

/** A round on paper: a bed's plants in walking order, with a box for each trait. */
export interface RoundOnPaper {
  /** Number by which it is found again for typing in; the QR code holds it. */
  readonly number: string;
  readonly garden: string;
  readonly bed: string;
  readonly traits: readonly {
    readonly name: string;
    readonly unit: string | null;
    /** Words of a classed trait, written by their numbers. */
    readonly classes: readonly string[];
    /** Letters are words of this trait, so states are written out. */
    readonly statesInWords: boolean;
  }[];
  readonly rows: readonly {
    readonly code: string;
    readonly line: string;
    /** By trait, the value of an earlier year, with its year; empty where there is none. */
    readonly before: readonly string[];
  }[];
}

/** A page of the sheet. */
export interface RoundPage extends LabelSize {
  readonly shapes: readonly Shape[];
}

/** More columns than this leave no box that can be written in. */
export const mostTraits = 10;

const margin = 12;
const head = 27;
const foot = 9;
const rowHeight = 9;
const headRow = 12;
const [numberWidth, codeWidth, lineWidth, least] = [8, 40, 34, 15];
const rule = 0.2;

/**
 * Draws the pages of a round sheet: A4 or Letter, upright, lying where there are many traits. On each page the number,
 * its QR code, lines for the date and the person; on each row a box to write in for each trait, last year's value small
 * in its corner. Throws RangeError where there are more than `mostTraits` traits.
 */
export function layOutRound(
  round: RoundOnPaper,
  modules: QrModules,
  paper: PaperName,
  measure: Measure,
): RoundPage[] {
  const count = round.traits.length;
  if (count === 0) throw new RangeError('a round sheet needs at least one trait');
  if (count > mostTraits) {
    throw new RangeError(
      `a round sheet holds at most ${mostTraits} traits; print a second sheet for the others`,
    );
  }
  const upright = papers[paper];
  const fixed = numberWidth + codeWidth + lineWidth;
  const lying = (upright.width - 2 * margin - fixed) / count < least;
  const [width, height] = lying ? [upright.height, upright.width] : [upright.width, upright.height];
  const column = Math.min(30, (width - 2 * margin - fixed) / count);
  const legend = legendOf(round);
  const legendRoom = legend.length * 4 + 2;
  const perPage = Math.floor((height - 2 * margin - head - headRow - foot - legendRoom) / rowHeight);
  const pages = Math.max(1, Math.ceil(round.rows.length / perPage));
  return Array.from({ length: pages }, (_, page) => {
    const put = new Drawing(measure);
    const rows = round.rows.slice(page * perPage, (page + 1) * perPage);
    drawHead(put, round, modules, width);
    const top = margin + head;
    drawColumns(put, round, top, column);
    rows.forEach((row, at) => {
      drawRow(put, row, page * perPage + at + 1, top + headRow + at * rowHeight, column);
    });
    const end = top + headRow + rows.length * rowHeight + 2;
    legend.forEach((text, at) => {
      put.fit(text, margin, end + at * 4, width - 2 * margin, 4, 'plain', 2.6);
    });
    put.fit(
      `${round.number} · page ${page + 1} of ${pages}`,
      margin,
      height - margin - 4,
      width - 2 * margin,
      4,
      'plain',
      2.8,
    );
    return { width, height, shapes: put.shapes };
  });
}

function drawHead(put: Drawing, round: RoundOnPaper, modules: QrModules, width: number): void {
  const side = 22;
  const module = side / (modules.length + 8);
  put.shapes.push({
    kind: 'qr',
    x: width - margin - side + 4 * module,
    y: margin - 2 + 4 * module,
    size: modules.length * module,
    modules,
  });
  const numberRoom = 44;
  const numberX = width - margin - side - numberRoom;
  put.shapes.push(...drawCode(round.number, numberX, margin + 2, 6.4, put.measure));
  put.fit(round.bed, margin, margin, numberX - margin - 4, 8, 'heavy', 6);
  put.fit(round.garden, margin, margin + 8, numberX - margin - 4, 5, 'plain', 3.2);
  const lineY = margin + 20;
  for (const [name, x, long] of [
    ['Date', margin, 45],
    ['Person', margin + 65, 45],
  ] as const) {
    put.fit(name, x, lineY - 3, 16, 4, 'plain', 3);
    put.box(x + 14, lineY + 0.6, long, 0);
  }
}

function drawColumns(put: Drawing, { traits }: RoundOnPaper, top: number, column: number): void {
  put.fit('Plant', margin + numberWidth, top + headRow - 5, codeWidth, 4, 'heavy', 3);
  traits.forEach(({ name, unit }, at) => {
    const x = margin + numberWidth + codeWidth + lineWidth + at * column;
    put.box(x, top, column, headRow);
    put.fit(unit ? `${name}, ${unit}` : name, x + 1, top + 1, column - 2, headRow - 2, 'heavy', 3);
  });
}

function drawRow(
  put: Drawing,
  { code, line, before }: RoundOnPaper['rows'][number],
  number: number,
  y: number,
  column: number,
): void {
  put.box(margin, y, numberWidth + codeWidth + lineWidth, rowHeight);
  put.fit(String(number), margin + 1, y + 3, numberWidth - 1, 4, 'plain', 2.6);
  const widest = (codeWidth - 2) / (put.measure(code, 'heavy') + 1.2);
  const size = Math.min(4.6, widest);
  put.shapes.push(
    ...drawCode(code, margin + numberWidth, y + (rowHeight - capitals * size) / 2, size, put.measure),
  );
  put.fit(line, margin + numberWidth + codeWidth, y + 1, lineWidth - 1, rowHeight - 2, 'plain', 2.8);
  before.forEach((value, at) => {
    const x = margin + numberWidth + codeWidth + lineWidth + at * column;
    put.box(x, y, column, rowHeight);
    put.fit(value, x + 0.8, y + rowHeight - 2.8, column - 1.6, 2.4, 'plain', 2);
  });
}

/** How states are written, and the numbers of classes. */
function legendOf({ traits }: RoundOnPaper): string[] {
  const lines = ['n not yet · d dead · m missing · leave a box empty where nothing was looked at'];
  if (traits.some(({ statesInWords }) => statesInWords)) {
    lines.push(
      `Write “not yet”, “dead” or “missing” in full for: ${traits
        .filter(({ statesInWords }) => statesInWords)
        .map(({ name }) => name)
        .join(', ')}`,
    );
  }
  for (const { name, classes } of traits) {
    if (classes.length > 0)
      lines.push(`${name}: ${classes.map((word, at) => `${at + 1} ${word}`).join(' · ')}`);
  }
  return lines;
}

class Drawing {
  readonly shapes: Shape[] = [];
  readonly measure: Measure;

  constructor(measure: Measure) {
    this.measure = measure;
  }

  /** Text in a room, at most of this size, shortened where it must be. */
  fit(text: string, x: number, y: number, width: number, height: number, weight: Weight, most: number): void {
    const size = Math.min(most, height / (capitals + below));
    const room = { x, y, width, height };
    this.shapes.push(
      ...fitText(text, room, weight, { least: Math.min(size, 1.9), most: size }, this.measure).shapes,
    );
  }

  box(x: number, y: number, width: number, height: number): void {
    this.shapes.push({ kind: 'box', x, y, width, height, line: rule });
  }
}
