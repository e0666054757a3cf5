import { setImmediate } from 'node:timers/promises';
import type { LabelPage, Shape } from '@keelrow/breeding/labels';
import PDFDocument from 'pdfkit';
import { facesOf, runsOf, widthOfRun } from './faces.ts';

type Pdf = InstanceType<typeof PDFDocument>;

/** Points of a millimetre: an inch is 25.4 mm and 72 points. */
const points = 72 / 25.4;

/** A page of shapes in millimetres. */
export interface PrintedPage extends Pick<LabelPage, 'width' | 'height'> {
  readonly parts: readonly {
    readonly x: number;
    readonly y: number;
    readonly height: number;
    readonly turned: boolean;
    readonly shapes: readonly Shape[];
  }[];
}

/**
 * A PDF of pages at their true size, type embedded, QR codes as vectors. Viewers are told not to scale it when printing.
 * title: what the document calls itself. made: its date of making.
 */
export async function printPages(title: string, made: Date, pages: readonly PrintedPage[]): Promise<Buffer> {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    info: { Title: title, Producer: 'Keelrow', Creator: 'Keelrow', CreationDate: made },
  });
  const chunks: Buffer[] = [];
  pdf.on('data', (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise<void>((resolve, reject) => {
    pdf.on('end', () => resolve());
    pdf.on('error', reject);
  });
  for (const weight of ['heavy', 'plain'] as const) {
    for (const { name, bytes } of facesOf(weight)) pdf.registerFont(name, bytes);
  }
  for (const [at, { width, height, parts }] of pages.entries()) {
    // Other requests are answered between pages.
    if (at % 10 === 0) await setImmediate();
    pdf.addPage({ size: [width * points, height * points], margin: 0 });
    pdf.save().scale(points);
    for (const { x, y, height: tall, turned, shapes } of parts) {
      pdf.save().translate(x, turned ? y + tall : y);
      if (turned) pdf.rotate(-90);
      for (const shape of shapes) draw(pdf, shape);
      pdf.restore();
    }
    pdf.restore();
  }
  // Without this a viewer's "fit to page" would print the labels too small.
  const root = pdf as unknown as { _root: { data: Record<string, unknown> } };
  root._root.data.ViewerPreferences = pdf.ref({ PrintScaling: 'None' });
  pdf.end();
  await ended;
  return Buffer.concat(chunks);
}

function draw(pdf: Pdf, shape: Shape): void {
  switch (shape.kind) {
    case 'text': {
      let x = shape.x;
      for (const { face, text } of runsOf(shape.text, shape.weight)) {
        pdf.font(face.name).fontSize(shape.size).fillColor('black');
        pdf.text(text, x, shape.y, { lineBreak: false, baseline: 'alphabetic' });
        x += widthOfRun(face, text) * shape.size;
      }
      return;
    }
    case 'box':
      pdf.lineWidth(shape.line).rect(shape.x, shape.y, shape.width, shape.height).stroke('black');
      return;
    case 'qr': {
      const module = shape.size / shape.modules.length;
      // One path for all of it, so that no hairlines show between neighbours.
      shape.modules.forEach((row, down) => {
        for (const { from, length } of darkRuns(row)) {
          pdf.rect(shape.x + from * module, shape.y + down * module, length * module, module);
        }
      });
      pdf.fill('black');
    }
  }
}

function darkRuns(row: readonly boolean[]): { from: number; length: number }[] {
  const runs: { from: number; length: number }[] = [];
  row.forEach((dark, at) => {
    if (!dark) return;
    const last = runs.at(-1);
    if (last && last.from + last.length === at) last.length += 1;
    else runs.push({ from: at, length: 1 });
  });
  return runs;
}
