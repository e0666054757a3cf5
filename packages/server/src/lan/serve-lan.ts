import type { RequestListener, Server } from 'node:http';
import { createServer, type Server as SecureServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { RefusedError } from '../refusals.ts';
import type { Reach } from '../serving.ts';
import { type Authority, type Identity, openAuthority } from './authority.ts';
import { type OwnNames, ownNames } from './own-addresses.ts';
import { trustServer } from './trust-page.ts';

export interface LanWanted {
  /** Folder that keeps the certificate authority. */
  readonly folder: string;
  /** Address to listen on; 0.0.0.0 for every network of this computer. */
  readonly host: string;
  /** Ports of the encrypted server and of the page about trusting it; 0 takes any free one. */
  readonly port: number;
  readonly trustPort: number;
  /** Told when phones must trust a new authority, or reach the server elsewhere. */
  readonly onNews: (words: string) => void;
}

/** Milliseconds between two looks at this computer's addresses and the certificate's end. */
const betweenLooks = 60_000;
/** A certificate is made anew so many milliseconds before its end. */
const beforeEnd = 30 * 24 * 60 * 60_000;

/**
 * Serves the app encrypted to the networks of this computer, and the page that leads phones through trusting it. Keeps
 * reach up to date as addresses change. Throws RefusedError: no private address, a port in use.
 */
export async function serveLan(
  wanted: LanWanted,
  answer: RequestListener,
  reach: Reach,
): Promise<{ close(): Promise<void> }> {
  let own = namesOrRefuse(wanted.host);
  let authority = await openAuthority(wanted.folder, own, new Date());
  let identity: Identity = await authority.vouchFor(own, new Date());
  const secure = createServer({ key: identity.key, cert: identity.cert, minVersion: 'TLSv1.2' }, answer);
  const trust = trustServer(() => ({ ...authority, origins: reach.origins }));
  await listen(secure, wanted.host, wanted.port);
  await listen(trust, wanted.host, wanted.trustPort).catch(async (error) => {
    await end(secure);
    throw error;
  });
  const tell = (): void => {
    Object.assign(reach, reachOf(own, authority, portOf(secure), portOf(trust)));
  };
  tell();

  const look = async (): Promise<void> => {
    const now = ownNames(wanted.host);
    const isSame = JSON.stringify(now) === JSON.stringify(own);
    const lasts = identity.ends.getTime() - Date.now() > beforeEnd;
    if ((isSame && lasts) || now.addresses.length === 0) return;
    own = now;
    authority = await openAuthority(wanted.folder, own, new Date());
    identity = await authority.vouchFor(own, new Date());
    secure.setSecureContext({ key: identity.key, cert: identity.cert, minVersion: 'TLSv1.2' });
    tell();
    if (!isSame) wanted.onNews(newsOf(reach, authority));
  };
  const looking = setInterval(() => {
    look().catch((error: Error) => wanted.onNews(`The certificate could not be made anew: ${error.message}`));
  }, betweenLooks).unref();
  return {
    async close() {
      clearInterval(looking);
      await Promise.all([end(secure), end(trust)]);
    },
  };
}

function namesOrRefuse(host: string): OwnNames {
  const own = ownNames(host);
  if (own.addresses.length === 0) {
    throw new RefusedError(409, {
      problem:
        host === '0.0.0.0'
          ? 'this computer has no address in a private network, so no phone could reach it'
          : `${host} is no private IPv4 address of this computer`,
      remedy:
        'join the network that the phones are in, or put a reverse proxy with its own certificate before the server',
    });
  }
  return own;
}

function reachOf(own: OwnNames, { fingerprint }: Authority, port: number, trustPort: number): Reach {
  const hosts = [
    ...own.addresses.map(({ address }) => address),
    ...own.names.filter((name) => name.endsWith('.local')),
  ];
  return {
    origins: hosts.map((host) => `https://${host}:${port}`),
    helper: `http://${hosts[0]}:${trustPort}`,
    fingerprint,
  };
}

const newsOf = (reach: Reach, { isNew }: Authority): string =>
  `This computer’s addresses changed. Phones reach it at ${reach.origins.join(' or ')}.${
    isNew
      ? ` It came into another network and has a new certificate authority: each phone opens ${reach.helper} once more.`
      : ''
  }`;

const portOf = (server: Server | SecureServer): number => (server.address() as AddressInfo).port;

const listen = (server: Server | SecureServer, host: string, port: number): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      reject(
        error.code === 'EADDRINUSE'
          ? new RefusedError(409, {
              problem: `port ${port} is in use by another program`,
              remedy: 'choose another with --port: with --lan it and the two that follow are needed',
            })
          : error,
      ),
    );
    server.listen(port, host, resolve);
  });

const end = (server: Server | SecureServer): Promise<void> =>
  new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
