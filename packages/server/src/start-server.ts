import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import cookie from '@fastify/cookie';
import files from '@fastify/static';
import { ensureOwner, makeKey, type Programme } from '@keelrow/records';
import fastify, { type FastifyInstance } from 'fastify';
import { guardOpenMode, guardOrigin } from './guards/open-mode.ts';
import { Sightings } from './guards/sightings.ts';
import { guardPeople, signInRoutes } from './guards/sign-in.ts';
import { Jobs } from './jobs/jobs.ts';
import type { LanWanted } from './lan/serve-lan.ts';
import { PlantLists } from './plant-lists.ts';
import { answerRefusals, RefusedError } from './refusals.ts';
import { briefRoutes } from './routes/briefs.ts';
import { estimateRoutes } from './routes/estimates.ts';
import { fileRoutes } from './routes/files.ts';
import { importRoutes } from './routes/imports.ts';
import { noteRoutes } from './routes/notes.ts';
import { phoneRoutes } from './routes/phone.ts';
import { phonesRoutes } from './routes/phones.ts';
import { pictureRoutes } from './routes/pictures.ts';
import { plantRoutes } from './routes/plants.ts';
import { printingRoutes } from './routes/printing.ts';
import { programmeRoutes } from './routes/programme.ts';
import { recordRoutes } from './routes/records.ts';
import { unsettledRoutes } from './routes/unsettled.ts';
import type { Reach, Serving } from './serving.ts';
import { Uploads } from './uploads.ts';

export interface ServerWanted {
  readonly programme: Programme;
  /** Folder or address by which the workers open the programme again. */
  readonly where: string;
  readonly host: string;
  /** 0 takes any free port. */
  readonly port: number;
  /** For this computer alone, without sign-in. */
  readonly open: boolean;
  /** Folder of the built browser app. */
  readonly web: string;
  /** Serves phones in the networks of this computer too, encrypted. */
  readonly lan?: LanWanted;
}

export interface RunningServer {
  readonly address: string;
  /** Where to begin: in a server with sign-in a link that lets its first user in, once, within fifteen minutes. */
  readonly link: string;
  /** Where phones reach it. */
  readonly reach: Readonly<Reach>;
  close(): Promise<void>;
}

const minutesToSignIn = 15;
/** Rows of a request that is no file: a day's notes of several phones fit in. */
const bodyLimit = 32 * 1024 * 1024;

const policy = [
  "default-src 'self'",
  "img-src 'self' data: blob:",
  "style-src 'self' 'unsafe-inline'",
  "script-src 'self'",
  "connect-src 'self'",
  "media-src 'self' blob:",
  "worker-src 'self'",
  "manifest-src 'self'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'self'",
].join('; ');

/** Refuses to serve without sign-in to any computer but this one, phones included; throws RefusedError. */
export function refuseOpenBeyondThisComputer({
  open,
  host,
  lan,
}: {
  open: boolean;
  host: string;
  lan: boolean;
}): void {
  if (open && lan) {
    throw new RefusedError(400, {
      problem: '--open is for this computer alone and cannot go with --lan, where everybody signs in',
      remedy: 'leave out one of the two',
    });
  }
  if (open && !['127.0.0.1', 'localhost', '::1'].includes(host)) {
    throw new RefusedError(400, {
      problem: `--open is for this computer alone and cannot go with --host ${host}`,
      remedy: 'leave out one of the two',
    });
  }
}

/** Starts serving a programme to browsers. Throws where host and port cannot be had, or where --open is not safe. */
export async function startServer(wanted: ServerWanted): Promise<RunningServer> {
  refuseOpenBeyondThisComputer({ ...wanted, lan: wanted.lan !== undefined });
  const app = fastify({
    bodyLimit,
    logger: { level: 'error' },
    ajv: { customOptions: { coerceTypes: false } },
  });
  const serving: Serving = {
    programme: wanted.programme,
    jobs: new Jobs(wanted.where),
    plants: new PlantLists(wanted.programme),
    uploads: new Uploads(),
    open: wanted.open,
    reach: { origins: [], helper: null, fingerprint: null },
    build: buildOf(wanted.web),
  };
  answerRefusals(app);
  await app.register(cookie);
  if (wanted.open) guardOpenMode(app);
  guardOrigin(app);
  const sightings = new Sightings(wanted.programme);
  guardPeople(app, wanted.programme, sightings, wanted.open);
  app.addHook('onSend', async (request, reply) => {
    void reply.headers({
      'content-security-policy': policy,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'same-origin',
    });
    if (request.url.startsWith('/api/')) void reply.header('cache-control', 'no-store');
  });
  signInRoutes(app, wanted.programme);
  for (const routes of [
    programmeRoutes,
    plantRoutes,
    recordRoutes,
    noteRoutes,
    phoneRoutes,
    phonesRoutes,
    unsettledRoutes,
    estimateRoutes,
    briefRoutes,
    importRoutes,
    fileRoutes,
    pictureRoutes,
    printingRoutes,
  ])
    routes(app, serving);
  await serveApp(app, wanted.web);
  app.addHook('onClose', async () => {
    await serving.jobs.close();
    serving.uploads.close();
    await sightings.close();
  });
  const address = await app
    .listen({ host: wanted.host, port: wanted.port })
    .catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE')
        throw new RefusedError(409, {
          problem: `port ${wanted.port} is in use by another program`,
          remedy: 'choose another with --port',
        });
      throw error;
    });
  const lan = await startLan(app, wanted.lan, serving.reach).catch(async (error: unknown) => {
    await app.close();
    throw error;
  });
  const key = wanted.open
    ? null
    : await makeKey(
        wanted.programme,
        await ensureOwner(wanted.programme),
        'sign in once',
        minutesToSignIn,
        new Date(),
      );
  return {
    address,
    link: key ? `${address}/sign-in#key=${key}` : address,
    reach: serving.reach,
    async close() {
      await lan?.close();
      await app.close();
    },
  };
}

/** The libraries for certificates are loaded only where they are needed. */
async function startLan(
  app: FastifyInstance,
  wanted: LanWanted | undefined,
  reach: Reach,
): Promise<{ close(): Promise<void> } | null> {
  if (!wanted) return null;
  const { serveLan } = await import('./lan/serve-lan.ts');
  return serveLan(wanted, (request, response) => app.routing(request, response), reach);
}

const buildOf = (web: string): string => {
  const file = join(web, 'build.txt');
  return existsSync(file) ? readFileSync(file, 'utf8').trim() : 'development';
};

/** The browser app: hashed files kept for ever, its page asked for anew each time and given for any path of its own. */
async function serveApp(app: FastifyInstance, web: string): Promise<void> {
  if (!existsSync(join(web, 'index.html'))) {
    app.setNotFoundHandler(() => {
      throw new RefusedError(404, { problem: 'the browser app is not built', remedy: 'run “npm run build”' });
    });
    return;
  }
  await app.register(files, {
    root: web,
    cacheControl: false,
    preCompressed: true,
    setHeaders: (reply, path) => {
      const hashed = path.includes(`${join(web, 'assets')}`);
      reply.setHeader('cache-control', hashed ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
  app.setNotFoundHandler((request, reply) => {
    // A file of a build long past is missing; a page in its place would be taken for the file.
    if (/^\/(api|assets)\//.test(request.url) || request.method !== 'GET') {
      throw new RefusedError(404, { problem: `there is nothing at ${request.url.split('?')[0]}` });
    }
    return reply.header('cache-control', 'no-cache').sendFile('index.html');
  });
}
