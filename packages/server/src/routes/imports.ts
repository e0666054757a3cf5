import type { Readable } from 'node:stream';
import { PassThrough } from 'node:stream';
import { isKindName, type KindName } from '@keelrow/breeding/facts';
import {
  exportKind,
  exportWorkbook,
  type ImportOutcome,
  type ImportPlan,
  openImport,
  writeTemplate,
} from '@keelrow/records';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { z } from 'zod';
import type { ImportPreview, Upload } from '../contract/importing.ts';
import type { JobStarted } from '../contract/programme.ts';
import { actOf } from '../given.ts';
import { RefusedError } from '../refusals.ts';
import type { Serving } from '../serving.ts';
import type { Uploaded } from '../uploads.ts';

/** Largest file taken from a browser. */
const mostBytes = 2 * 1024 ** 3;

const columnUse = z.union([
  z.strictObject({ field: z.string(), unit: z.string().optional() }),
  z.strictObject({
    trait: z.string(),
    unit: z.string().optional(),
    newTrait: z
      .strictObject({
        name: z.string().min(1),
        sort: z.enum(['measured', 'counted', 'scored', 'dated', 'classed', 'written']),
        unit: z.string().optional(),
      })
      .optional(),
  }),
  z.strictObject({ year: z.literal(true) }),
]);
const kindName = z
  .string()
  .refine(isKindName, 'there is no such kind of record') as unknown as z.ZodType<KindName>;
const importPlan = z.object({
  kind: kindName,
  sheet: z.string().optional(),
  columns: z.array(columnUse.nullable()),
  dateOrder: z.enum(['ymd', 'dmy', 'mdy']).optional(),
  decimal: z.enum(['.', ',']).optional(),
  constants: z.record(z.string(), z.string()).optional(),
  yearDay: z
    .string()
    .regex(/^\d\d-\d\d$/, 'month and day, such as 07-01')
    .optional(),
  make: z.array(kindName).optional(),
  ifThere: z.enum(['refuse', 'change']).optional(),
  again: z.boolean().optional(),
}) satisfies z.ZodType<ImportPlan>;

const uploadOf = (params: unknown): string => (params as { upload: string }).upload;

export function importRoutes(app: FastifyInstance, serving: Serving): void {
  const { programme, uploads, jobs } = serving;
  const describe = async (
    uploaded: Uploaded,
    wishes: { kind?: KindName | undefined; sheet?: string | undefined },
  ): Promise<Upload> => {
    const given = {
      ...(wishes.kind ? { kind: wishes.kind } : {}),
      ...(wishes.sheet ? { sheet: wishes.sheet } : {}),
    };
    const { table, plan, sample } = await openImport(programme, uploaded.path, given, uploaded.name);
    return {
      upload: uploaded.id,
      name: uploaded.name,
      bytes: uploaded.bytes,
      format: formatInWords(table),
      sheets: table.sheets,
      sheet: table.sheet ?? null,
      headers: table.headers,
      sample: sample.slice(0, 10).map(({ row, cells }) => ({ row, cells: cells.map(({ text }) => text) })),
      findings: table.findings.map(({ message }) => message),
      proposal: plan,
    };
  };

  void app.register(async (inner) => {
    // The body of an upload is the file itself, of whatever type; it is streamed to disk.
    inner.removeAllContentTypeParsers();
    inner.addContentTypeParser('*', { bodyLimit: mostBytes }, (_request, payload, done) =>
      done(null, payload),
    );
    inner.post('/api/imports', { bodyLimit: mostBytes }, async (request): Promise<Upload> => {
      const { name } = z.object({ name: z.string().min(1, 'the file has a name') }).parse(request.query);
      const uploaded = await uploads.keep(request.body as Readable, name);
      try {
        return await describe(uploaded, {});
      } catch (error) {
        uploads.drop(uploaded.id);
        throw error;
      }
    });
  });
  app.post('/api/imports/:upload/propose', async (request): Promise<Upload> => {
    const wishes = z.object({ kind: kindName.optional(), sheet: z.string().optional() }).parse(request.body);
    return describe(uploads.get(uploadOf(request.params)), wishes);
  });
  app.post('/api/imports/:upload/preview', async (request): Promise<ImportPreview> => {
    const { plan } = z.object({ plan: importPlan }).parse(request.body);
    const uploaded = uploads.get(uploadOf(request.params));
    const outcome = await jobs.run<ImportOutcome>(
      {
        name: 'import',
        path: uploaded.path,
        fileName: uploaded.name,
        plan,
        store: false,
        by: actOf(request),
      },
      `a look at ${uploaded.name}`,
    );
    const { stored, ...rest } = outcome;
    return { ...rest, wouldStore: stored };
  });
  app.post('/api/imports/:upload/store', async (request): Promise<JobStarted> => {
    const { plan } = z.object({ plan: importPlan }).parse(request.body);
    const uploaded = uploads.get(uploadOf(request.params));
    const by = { ...actOf(request), via: 'import' as const };
    return {
      job: jobs.start(
        { name: 'import', path: uploaded.path, fileName: uploaded.name, plan, store: true, by },
        `taking in ${uploaded.name}`,
      ),
    };
  });

  app.get('/api/export/:file', { config: { role: 'owner' } }, async (request, reply) => {
    const { file } = request.params as { file: string };
    const parts = /^([a-z-]+)\.(csv|xlsx)$/.exec(file);
    if (!parts || !(isKindName(parts[1]!) || file === 'all.xlsx'))
      throw new RefusedError(404, { problem: `there is no export “${file}”` });
    const format = parts[2] as 'csv' | 'xlsx';
    const template = (request.query as { template?: string }).template === '1';
    return stream(reply, template ? `template-${file}` : file, (sink) => {
      if (file === 'all.xlsx') return exportWorkbook(programme, sink);
      const kind = parts[1] as KindName;
      return template ? writeTemplate(kind, format, sink) : exportKind(programme, kind, format, sink);
    });
  });
}

function stream(
  reply: FastifyReply,
  name: string,
  write: (sink: PassThrough) => Promise<void>,
): FastifyReply {
  const sink = new PassThrough();
  write(sink).catch((error: Error) => sink.destroy(error));
  const type = name.endsWith('.csv')
    ? 'text/csv; charset=utf-8'
    : 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
  return reply.header('content-disposition', `attachment; filename="${name}"`).type(type).send(sink);
}

const separatorNames: Record<string, string> = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar' };

function formatInWords(table: { format: string; encoding?: string; separator?: string }): string {
  if (table.format === 'xlsx') return 'spreadsheet (XLSX)';
  return `text, ${separatorNames[table.separator ?? ','] ?? table.separator} between cells, ${table.encoding ?? 'utf-8'}`;
}
