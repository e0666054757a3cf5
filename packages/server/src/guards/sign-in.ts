import {
  daysLetIn,
  type Holder,
  letPhoneIn,
  makeKey,
  type Programme,
  revokeKey,
  useKey,
} from '@keelrow/records';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { RefusedError } from '../refusals.ts';
import type { Sightings } from './sightings.ts';

/** Days for which a browser stays signed in. */
const daysSignedIn = 90;
const cookieName = 'keelrow';

interface Visitor {
  /** Id of the person; null where the server is open and nobody is named. */
  readonly person: string | null;
  readonly code: string;
  readonly name: string;
  readonly role: Holder['role'];
  /** Id of the phone that asks; null for a browser. */
  readonly device: string | null;
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

const nobody = {
  problem: 'nobody is signed in',
  remedy: 'open the link that the server printed, or ask the owner for a new one',
};
/** The key is no longer known: its time is over, or the owner shut the phone out. */
const letOut = {
  problem: 'this phone or browser is no longer let in; what it handed over stays in the record',
  remedy: 'ask the owner to let it in anew; what it has not handed over yet is kept on it meanwhile',
};

const ranks = { guest: 0, recorder: 1, owner: 2 } as const;

/** Whoever uses an open server is its owner. */
const atThisComputer: Visitor = {
  person: null,
  code: '',
  name: 'this computer',
  role: 'owner',
  device: null,
};

/** Lets in by key; every route but the sign-in needs a person of the role that it names. */
export function guardPeople(
  app: FastifyInstance,
  programme: Programme,
  sightings: Sightings,
  open: boolean,
): void {
  app.decorateRequest('visitor', null);
  app.addHook('onRequest', async (request) => {
    request.visitor = open ? atThisComputer : await visitorOf(programme, request);
    if (request.visitor?.device) sightings.see(request.visitor.device, new Date());
    const needed = request.routeOptions.config.role ?? (request.url.startsWith('/api/') ? 'owner' : 'anyone');
    if (needed === 'anyone') return;
    if (!request.visitor) throw new RefusedError(401, request.cookies[cookieName] ? letOut : nobody);
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

/** Keeps the key in the browser or phone, out of reach of its pages. */
function stayIn(request: FastifyRequest, reply: FastifyReply, key: string, days: number): void {
  void reply.setCookie(cookieName, key, {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    // A reverse proxy says by what the browser came; forged, the word would only keep the cookie from being kept.
    secure: request.protocol === 'https' || request.headers['x-forwarded-proto'] === 'https',
    maxAge: days * 24 * 60 * 60,
  });
}

/** Gives the phone that asks its cookie for another while; browsers forget cookies after a set time. */
export function prolongStay(request: FastifyRequest, reply: FastifyReply): void {
  const key = request.cookies[cookieName];
  if (key && request.visitor?.device) stayIn(request, reply, key, daysLetIn);
}

const signIn = z.object({ key: z.string().min(10).max(200), device: z.string().max(200).optional() });

export function signInRoutes(app: FastifyInstance, programme: Programme): void {
  app.post('/api/sign-in', { config: { role: 'anyone' } }, async (request, reply) => {
    const { key, device } = signIn.parse(request.body);
    const phone = await letPhoneIn(programme, key.trim(), device?.trim() || null, new Date());
    const holder = phone?.holder ?? (await useKey(programme, key.trim(), 'sign in once', new Date()));
    if (!holder) {
      throw new RefusedError(401, {
        problem: 'this key is not valid any more; a key lets in once, within minutes',
        remedy: 'start the server again for a new one, or ask the owner',
      });
    }
    const stay =
      phone?.key ??
      (await makeKey(programme, holder.person, 'signed in', daysSignedIn * 24 * 60, new Date()));
    stayIn(request, reply, stay, phone ? daysLetIn : daysSignedIn);
    return { person: { code: holder.code, name: holder.name ?? holder.code, role: holder.role } };
  });
  app.post('/api/sign-out', { config: { role: 'guest' } }, async (request, reply) => {
    const key = request.cookies[cookieName];
    if (key) await revokeKey(programme, key);
    void reply.clearCookie(cookieName, { path: '/' });
    return {};
  });
}
