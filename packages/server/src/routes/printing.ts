import { type LabelText, papers } from '@keelrow/breeding/labels';
import { labelSubjects, readLabels } from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { LabelsDrawn, LabelsWanted } from '../contract/printing.ts';
import { labelPages } from '../printing/label-pages.ts';
import { printPages } from '../printing/pdf.ts';
import { RefusedError } from '../refusals.ts';
import type { Serving } from '../serving.ts';

const mm = (least: number, most: number) => z.number().min(least).max(most);
const subject = z.enum(labelSubjects);
const labelsWanted = z.object({
  of: subject,
  place: z.string().optional(),
  codes: z.array(z.string()).max(5000, 'at most 5,000 labels at a time').optional(),
  form: z.discriminatedUnion('kind', [
    z.object({
      kind: z.literal('sheet'),
      grid: z.object({
        paper: z.enum(Object.keys(papers) as (keyof typeof papers)[]),
        rows: z.int().min(1).max(60),
        columns: z.int().min(1).max(30),
        marginX: mm(0, 100),
        marginY: mm(0, 100),
        gapX: mm(0, 100),
        gapY: mm(0, 100),
      }),
      startAt: z.int(),
    }),
    z.object({ kind: z.literal('single'), size: z.object({ width: mm(1, 600), height: mm(1, 600) }) }),
  ]),
  lead: z.enum(['code', 'name']),
  copies: z.int().min(1).max(20, 'at most 20 of each'),
});

/** Pages that a screen can draw at once. */
const pagesShown = 4;

/** Labels and sheets on paper. */
export function printingRoutes(app: FastifyInstance, { programme }: Serving): void {
  const textsOf = async (wanted: LabelsWanted): Promise<LabelText[]> => {
    const rows = await readLabels(programme.read, wanted);
    if (!wanted.codes) return rows;
    const byCode = new Map(rows.map((row) => [row.code, row]));
    return wanted.codes.map((code) => {
      const row = byCode.get(code);
      if (!row) throw new RefusedError(404, { problem: `there is nothing to label with the code “${code}”` });
      return row;
    });
  };
  const given = (body: unknown): LabelsWanted => labelsWanted.parse(body) as LabelsWanted;

  app.get('/api/labels', { config: { role: 'recorder' } }, async (request) =>
    readLabels(programme.read, z.object({ of: subject, place: z.string().optional() }).parse(request.query)),
  );
  app.post('/api/labels/drawn', { config: { role: 'recorder' } }, async (request): Promise<LabelsDrawn> => {
    const wanted = given(request.body);
    const { pages, labels, told } = await labelPages(await textsOf(wanted), wanted);
    return {
      pages: pages.slice(0, pagesShown),
      pagesInAll: pages.length,
      labels,
      told: told.slice(0, 100),
    };
  });
  app.post('/api/labels/pdf', { config: { role: 'recorder' } }, async (request, reply) => {
    const wanted = given(request.body);
    const { pages } = await labelPages(await textsOf(wanted), wanted);
    if (pages.length === 0) throw new RefusedError(422, { problem: 'there is nothing to print' });
    const pdf = await printPages(
      'Labels',
      new Date(),
      pages.map(({ width, height, labels }) => ({ width, height, parts: labels })),
    );
    return reply
      .type('application/pdf')
      .header('content-disposition', 'inline; filename="labels.pdf"')
      .send(pdf);
  });
}
