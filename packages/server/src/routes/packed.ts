import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { FastifyReply, FastifyRequest } from 'fastify';

const pack = promisify(gzip);

/** Smaller answers gain nothing. */
const worthPacking = 50_000;

/** Answers in JSON, packed where it is large and the caller takes gzip: a whole garden goes over a garden's Wi-Fi. */
export async function answerPacked(
  request: FastifyRequest,
  reply: FastifyReply,
  answer: unknown,
): Promise<FastifyReply> {
  const text = JSON.stringify(answer);
  void reply.type('application/json; charset=utf-8').header('vary', 'accept-encoding');
  const takesGzip = /\bgzip\b/.test(request.headers['accept-encoding'] ?? '');
  if (text.length < worthPacking || !takesGzip) return reply.send(text);
  return reply.header('content-encoding', 'gzip').send(await pack(text, { level: 4 }));
}
