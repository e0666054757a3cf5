import {
  act,
  add,
  change,
  historyOf,
  listRecords,
  readRecord,
  replace,
  suggestCode,
  withdraw,
} from '@keelrow/records';
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { RecordList, RecordStored } from '../contract/plants.ts';
import { actOf, anyRow, kindGiven, wholeNumber } from '../given.ts';
import type { Serving } from '../serving.ts';

const page = z.object({
  search: z.string().max(200).optional(),
  offset: wholeNumber(0, 10_000_000).default(0),
  limit: wholeNumber(1, 1000).default(200),
});
const idOf = (params: unknown): string => (params as { id: string }).id;

/** Every kind of record alike: lists, adds, changes, replaces, withdraws, and tells the history. */
export function recordRoutes(app: FastifyInstance, { programme }: Serving): void {
  app.get('/api/records/:kind', { config: { role: 'recorder' } }, async (request): Promise<RecordList> => {
    const kind = kindGiven(request);
    const { search, offset, limit } = page.parse(request.query);
    return {
      kind,
      ...(await listRecords(programme.read, kind, { ...(search ? { search } : {}), offset, limit })),
    };
  });
  app.get('/api/records/:kind/:id', { config: { role: 'recorder' } }, async (request) => ({
    row: await readRecord(programme.read, kindGiven(request), idOf(request.params)),
  }));
  app.post('/api/records/:kind', async (request): Promise<RecordStored> => {
    const kind = kindGiven(request);
    const { row } = z.object({ row: anyRow }).parse(request.body);
    const [id] = await act(programme, actOf(request), (doing) => add(doing, kind, [row]));
    return { id: id!, row: (await readRecord(programme.read, kind, id!))! };
  });
  app.patch('/api/records/:kind/:id', async (request): Promise<RecordStored> => {
    const kind = kindGiven(request);
    const id = idOf(request.params);
    const { fields, reason } = z
      .object({ fields: anyRow, reason: z.string().max(2000).optional() })
      .parse(request.body);
    await act(programme, actOf(request, reason), (doing) => change(doing, kind, id, fields));
    return { id, row: (await readRecord(programme.read, kind, id))! };
  });
  app.post('/api/records/:kind/:id/replace', async (request): Promise<RecordStored> => {
    const kind = kindGiven(request);
    const { row, reason } = z
      .object({ row: anyRow, reason: z.string().max(2000).optional() })
      .parse(request.body);
    const id = await act(programme, actOf(request), (doing) =>
      replace(doing, kind, idOf(request.params), row, reason),
    );
    return { id, row: (await readRecord(programme.read, kind, id))! };
  });
  app.post('/api/records/:kind/:id/withdraw', async (request) => {
    const { reason } = z.object({ reason: z.string().max(2000) }).parse(request.body);
    await act(programme, actOf(request), (doing) =>
      withdraw(doing, kindGiven(request), idOf(request.params), reason),
    );
    return {};
  });
  app.get('/api/history/:kind/:id', { config: { role: 'recorder' } }, async (request) =>
    historyOf(programme.read, kindGiven(request), idOf(request.params)),
  );
  app.get('/api/next-code/:kind', async (request) => {
    const { of, year } = z
      .object({ of: z.string().default(''), year: wholeNumber(1600, 2399) })
      .parse(request.query);
    return { code: await suggestCode(programme, kindGiven(request), year, of) };
  });
}
