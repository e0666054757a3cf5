import type { FastifyInstance } from 'fastify';
import { RefusedError } from '../refusals.ts';

const ownNames = /^(localhost|127\.0\.0\.1|\[::1\])(:\d+)?$/i;
const forwarding = [
  'forwarded',
  'x-forwarded-for',
  'x-forwarded-host',
  'x-forwarded-proto',
  'x-real-ip',
  'via',
];

/**
 * Guards a server that was started for this computer alone, without sign-in: it answers only where it is called by
 * this computer's own name and by nobody's go-between. A proxy on this computer also calls from loopback, so the
 * caller's address tells nothing; and a page of another site could have its name lead here (DNS rebinding).
 */
export function guardOpenMode(app: FastifyInstance): void {
  app.addHook('onRequest', async (request) => {
    const forwarded = forwarding.find((name) => request.headers[name] !== undefined);
    if (forwarded) {
      throw new RefusedError(403, {
        problem: `this server was started for this computer alone, but the request came through a go-between (header ${forwarded})`,
        remedy: 'start it without --open, so that people sign in',
      });
    }
    if (!ownNames.test(request.headers.host ?? '')) {
      throw new RefusedError(403, {
        problem: 'this server was started for this computer alone and answers only to localhost',
        remedy: 'use http://localhost, or start it without --open',
      });
    }
  });
}

/** Refuses changes asked for by pages of other sites. */
export function guardOrigin(app: FastifyInstance): void {
  app.addHook('onRequest', async (request) => {
    const { origin, host } = request.headers;
    if (request.method === 'GET' || request.method === 'HEAD' || !origin) return;
    if (!URL.canParse(origin) || new URL(origin).host !== host) {
      throw new RefusedError(403, { problem: 'the request came from a page of another site' });
    }
  });
}
