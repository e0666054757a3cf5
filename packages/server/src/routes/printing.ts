import { type LabelText, mostTraits, papers } from '@keelrow/breeding/labels';
import {
  keepRoundSheet,
  labelSubjects,
  listRecords,
  type NoteGrid,
  type RoundSheet,
  readLabels,
  readNoteGrid,
  readRoundSheet,
  readRoundSheets,
  readSettings,
} from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { LabelsDrawn, LabelsWanted, RoundToTypeIn } from '../contract/printing.ts';
import { wholeNumber } from '../given.ts';
import { labelPages } from '../printing/label-pages.ts';
import { printPages } from '../printing/pdf.ts';
import { roundPages } from '../printing/round-pages.ts';
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

const tooMany = `at most ${mostTraits} traits go on a sheet`;

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

  const sheetsShown = 20;
  const codeIn = (params: unknown): string => (params as { code: string }).code;
  const gridOf = async (sheet: RoundSheet, year: number): Promise<NoteGrid> =>
    readNoteGrid(programme.read, {
      ...(sheet.place ? { place: sheet.place } : {}),
      plants: sheet.plants,
      traits: sheet.traits,
      year,
    });

  app.get('/api/round-sheets', { config: { role: 'recorder' } }, async () =>
    readRoundSheets(programme.read, sheetsShown),
  );
  app.post('/api/round-sheets', { config: { role: 'recorder' } }, async (request): Promise<RoundSheet> => {
    const { place, traits, fromEnd } = z
      .object({
        place: z.string(),
        traits: z.array(z.string()).min(1, 'choose at least one trait').max(mostTraits, tooMany),
        fromEnd: z.boolean(),
      })
      .parse(request.body);
    const now = new Date();
    const grid = await readNoteGrid(programme.read, { place, traits, year: now.getUTCFullYear() });
    const living = new Set(
      (await readLabels(programme.read, { of: 'plants', place })).map(({ code }) => code),
    );
    const plants = grid.rows.filter(({ plantCode }) => living.has(plantCode)).map(({ plant }) => plant);
    if (plants.length === 0) throw new RefusedError(422, { problem: `no plant stands in “${place}”` });
    return keepRoundSheet(
      programme,
      { place, traits: grid.traits.map(({ code }) => code), plants: fromEnd ? plants.reverse() : plants },
      now,
    );
  });
  app.get(
    '/api/round-sheets/:code',
    { config: { role: 'recorder' } },
    async (request): Promise<RoundToTypeIn> => {
      const { year } = z.object({ year: wholeNumber(1600, 2399) }).parse(request.query);
      const sheet = await readRoundSheet(programme.read, codeIn(request.params));
      const { rows } = await listRecords(programme.read, 'people', { limit: 1000 });
      return {
        sheet,
        grid: await gridOf(sheet, year),
        people: rows
          .filter(({ left_on }) => left_on === null)
          .map(({ code, name }) => ({ code: code as string, name: (name ?? null) as string | null })),
      };
    },
  );
  app.get('/api/round-sheets/:code/pdf', { config: { role: 'recorder' } }, async (request, reply) => {
    const { paper } = z.object({ paper: z.enum(['A4', 'Letter']).default('A4') }).parse(request.query);
    const sheet = await readRoundSheet(programme.read, codeIn(request.params));
    const grid = await gridOf(sheet, Number(sheet.madeAt.slice(0, 4)));
    const settings = (await readSettings(programme.read))!;
    const pages = roundPages(sheet, grid, settings, paper);
    const pdf = await printPages(
      `Round ${sheet.code}`,
      new Date(sheet.madeAt),
      pages.map(({ width, height, shapes }) => ({
        width,
        height,
        parts: [{ x: 0, y: 0, height, turned: false, shapes }],
      })),
    );
    return reply
      .type('application/pdf')
      .header('content-disposition', `inline; filename="round-${sheet.code}.pdf"`)
      .send(pdf);
  });
}
