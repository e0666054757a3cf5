import { type Holder, makeKey, type Programme, revokeKey, useKey } from '@keelrow/records';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { RefusedError } from '../refusals.ts';

/** Days for which a browser stays signed in. */
const daysSignedIn = 90;
const cookieName = 'keelrow';

interface Visitor {
  /** Id of the person; null where the server is open and nobody is named. */
  readonly person: string | null;
  readonly code: string;
  readonly name: string;
  readonly role: Holder['role'];
}

declare module 'fastify' {
  interface FastifyRequest {
    visitor: Visitor | null;
  }
  interface FastifyContextConfig {
    /** Who may call the route; owner unless it is said. */
    role?: Holder['role'] | 'anyone';
  }
}

const ranks = { guest: 0, recorder: 1, owner: 2 } as const;

/** Whoever uses an open server is its owner. */
const atThisComputer: Visitor = { person: null, code: '', name: 'this computer', role: 'owner' };

/** Lets in by key; every route but the sign-in needs a person of the role that it names. */
export function guardPeople(app: FastifyInstance, programme: Programme, open: boolean): void {
  app.decorateRequest('visitor', null);
  app.addHook('onRequest', async (request) => {
    request.visitor = open ? atThisComputer : await visitorOf(programme, request);
    const needed = request.routeOptions.config.role ?? (request.url.startsWith('/api/') ? 'owner' : 'anyone');
    if (needed === 'anyone') return;
    if (!request.visitor)
      throw new RefusedError(401, {
        problem: 'nobody is signed in',
        remedy: 'open the link that the server printed, or ask the owner for a new one',
      });
    if (ranks[request.visitor.role] < ranks[needed]) {
      throw new RefusedError(403, {
        problem: `this needs the role ${needed}; you are ${request.visitor.role}`,
        remedy: 'ask the owner',
      });
    }
  });
}

async function visitorOf(programme: Programme, request: FastifyRequest): Promise<Visitor | null> {
  const key = request.cookies[cookieName];
  const holder = key ? await useKey(programme, key, 'signed in', new Date()) : null;
  return holder && { ...holder, name: holder.name ?? holder.code };
}

export function signInRoutes(app: FastifyInstance, programme: Programme): void {
  app.post('/api/sign-in', { config: { role: 'anyone' } }, async (request, reply) => {
    const { key } = z.object({ key: z.string().min(10).max(200) }).parse(request.body);
    const holder = await useKey(programme, key.trim(), 'sign in once', new Date());
    if (!holder) {
      throw new RefusedError(401, {
        problem: 'this key is not valid any more; a key lets in once, within minutes',
        remedy: 'start the server again for a new one, or ask the owner',
      });
    }
    const stay = await makeKey(programme, holder.person, 'signed in', daysSignedIn * 24 * 60, new Date());
    void reply.setCookie(cookieName, stay, {
      path: '/',
      httpOnly: true,
      sameSite: 'strict',
      secure: request.protocol === 'https',
      maxAge: daysSignedIn * 24 * 60 * 60,
    });
    return { person: { code: holder.code, name: holder.name ?? holder.code, role: holder.role } };
  });
  app.post('/api/sign-out', { config: { role: 'guest' } }, async (request, reply) => {
    const key = request.cookies[cookieName];
    if (key) await revokeKey(programme, key);
    void reply.clearCookie(cookieName, { path: '/' });
    return {};
  });
}
