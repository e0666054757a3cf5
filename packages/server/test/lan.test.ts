import { X509Certificate } from 'node:crypto';
import { chmodSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createServer, request } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { usualSettings } from '@keelrow/breeding/facts';
import { ensureOwner, makeKey, openProgramme, type Programme } from '@keelrow/records';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { type RunningServer, startServer } from '../src/index.ts';
import { openAuthority } from '../src/lan/authority.ts';
import { type OwnNames, ownNames } from '../src/lan/own-addresses.ts';

const day = 24 * 60 * 60_000;
const folders: string[] = [];
const newFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'keelrow-lan-'));
  folders.push(folder);
  return folder;
};
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** Asks over TLS as a client that trusts one authority alone, or those of the system where none is given. */
const ask = (
  url: string,
  options: { ca?: string; servername?: string; method?: string; body?: string } = {},
): Promise<{ status: number; body: string; cookie: string }> =>
  new Promise((resolve, reject) => {
    const { body, ...rest } = options;
    const asked = request(
      url,
      { ...rest, agent: false, headers: body ? { 'content-type': 'application/json' } : {} },
      (response) => {
        let text = '';
        response.on('data', (bytes: Buffer) => {
          text += bytes.toString();
        });
        response.on('end', () =>
          resolve({
            status: response.statusCode!,
            body: text,
            cookie: String(response.headers['set-cookie'] ?? ''),
          }),
        );
      },
    );
    asked.on('error', reject);
    asked.end(body);
  });

describe('a server for phones in the same network', () => {
  let programme: Programme;
  let server: RunningServer;
  let ca: string;
  let folder: string;
  const lan = () => ({ folder, host: '127.0.0.1', port: 0, trustPort: 0, onNews: () => undefined });
  const wanted = () => ({ programme, where: programme.location, host: '127.0.0.1', port: 0, web: 'none' });
  beforeAll(async () => {
    programme = await openProgramme(join(newFolder(), 'garden'), usualSettings);
    folder = join(programme.folder!, 'certificate');
    server = await startServer({ ...wanted(), open: false, lan: lan() });
    ca = readFileSync(join(folder, 'authority.pem'), 'utf8');
  });
  afterAll(async () => {
    await server.close();
    await programme.close();
  });

  it('speaks to those who trust its authority, and needs them to sign in', async () => {
    const [origin] = server.reach.origins;
    expect(origin).toMatch(/^https:\/\/127\.0\.0\.1:\d+$/);
    expect(JSON.parse((await ask(`${origin}/api/programme`, { ca })).body)).toEqual({
      open: false,
      person: null,
    });
    expect((await ask(`${origin}/api/plants`, { ca })).status).toBe(401);
    const key = await makeKey(programme, await ensureOwner(programme), 'sign in once', 5, new Date());
    const signedIn = await ask(`${origin}/api/sign-in`, {
      ca,
      method: 'POST',
      body: JSON.stringify({ key }),
    });
    expect(signedIn.status).toBe(200);
    expect(signedIn.cookie).toMatch(/HttpOnly/i);
    expect(signedIn.cookie).toMatch(/Secure/i);
  });

  it('is refused by whoever does not trust it', async () => {
    await expect(ask(`${server.reach.origins[0]}/api/programme`)).rejects.toMatchObject({
      code: 'SELF_SIGNED_CERT_IN_CHAIN',
    });
  });

  it('keeps the authority’s key to its owner alone, and is not begun where others could read it', async () => {
    const key = join(folder, 'authority-key.pem');
    expect((statSync(key).mode & 0o777).toString(8)).toBe('600');
    expect((statSync(folder).mode & 0o777).toString(8)).toBe('700');
    chmodSync(key, 0o644);
    await expect(startServer({ ...wanted(), open: false, lan: lan() })).rejects.toMatchObject({
      refusal: { problem: expect.stringContaining('others on this computer can read the key') },
    });
    chmodSync(key, 0o600);
  });

  it('has a page about trusting it that gives the certificate and nothing else, its fingerprint neither', async () => {
    const at = async (path: string, init: RequestInit = {}) => fetch(server.reach.helper + path, init);
    const page = await (await at('/')).text();
    const certificate = new X509Certificate(ca);
    expect(page).not.toContain(certificate.fingerprint256);
    expect(server.reach.fingerprint).toBe(certificate.fingerprint256);
    for (const words of ['Certificate Trust Settings', 'Install a certificate', server.reach.origins[0]])
      expect(page).toContain(words);
    const given = await at('/keelrow-authority.crt');
    expect(given.headers.get('content-type')).toBe('application/x-x509-ca-cert');
    expect(Buffer.from(await given.arrayBuffer()).equals(certificate.raw)).toBe(true);
    for (const path of [
      '/api/programme',
      '/sign-in',
      '/authority-key.pem',
      '/../authority-key.pem',
      '/index.html',
    ])
      expect([path, (await at(path)).status]).toEqual([path, 404]);
    expect((await at('/', { method: 'POST', body: 'x' })).status).toBe(404);
  });

  it('cannot be had without sign-in', async () => {
    await expect(startServer({ ...wanted(), open: true, lan: lan() })).rejects.toMatchObject({
      refusal: { problem: expect.stringContaining('cannot go with --lan') },
    });
  });
});

describe('the authority', () => {
  const home: OwnNames = {
    addresses: [{ address: '127.0.0.1', network: '127.0.0.0/8' }],
    names: ['potting-shed', 'potting-shed.local'],
  };
  const now = new Date('2031-05-20T08:00:00Z');

  /** What a client that trusts the authority makes of a server with a certificate for these names. */
  async function visit(vouched: OwnNames, called: string): Promise<string> {
    const folder = newFolder();
    const authority = await openAuthority(folder, home, new Date());
    const { key, cert } = await authority.vouchFor(vouched, new Date());
    const server = createServer({ key, cert }, (_request, response) => response.end('good day'));
    onTestFinished(() => void server.close());
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const ca = readFileSync(join(folder, 'authority.pem'), 'utf8');
    const { port } = server.address() as AddressInfo;
    return ask(`https://127.0.0.1:${port}`, { ca, servername: called }).then(
      ({ body }) => body,
      (error: Error) => error.message,
    );
  }

  it('is believed for its own names and networks, and for nothing else that its key may sign', async () => {
    // source: RFC 5280, section 4.2.1.10; checked by OpenSSL, by way of Node.
    expect(await visit(home, 'potting-shed.local')).toBe('good day');
    const elsewhere = { addresses: home.addresses, names: ['bank.example'] };
    expect(await visit(elsewhere, 'bank.example')).toBe('permitted subtree violation');
    const abroad = { addresses: [{ address: '198.51.100.7', network: '198.51.100.0/24' }], names: [] };
    expect(await visit({ ...abroad, names: home.names }, 'potting-shed')).toBe('permitted subtree violation');
  });

  it('vouches for at most 397 days, and is itself limited by a critical extension', async () => {
    const folder = newFolder();
    const authority = await openAuthority(folder, home, now);
    const leaf = new X509Certificate((await authority.vouchFor(home, now)).cert);
    // source: CA/Browser Forum Baseline Requirements, section 6.3.2: 398 days and no more
    const days = (Date.parse(leaf.validTo) - Date.parse(leaf.validFrom)) / day;
    expect(days).toBeLessThanOrEqual(397);
    expect(days).toBeGreaterThan(390);
    expect(leaf.subjectAltName).toBe('IP Address:127.0.0.1, DNS:potting-shed, DNS:potting-shed.local');
    expect(leaf.ca).toBe(false);
    const own = new X509Certificate(readFileSync(join(folder, 'authority.pem')));
    expect([own.ca, leaf.checkIssued(own), leaf.verify(own.publicKey)]).toEqual([true, true, true]);
    // The extension’s identifier 2.5.29.30 followed by “critical”, as DER writes them (X.690).
    expect(own.raw.includes(Buffer.from('0603551d1e0101ff', 'hex'))).toBe(true);
  });

  it('stays the same until it must not: another address of its network, another network, its last year', async () => {
    const folder = newFolder();
    const at = (address: string, network: string): OwnNames => ({
      addresses: [{ address, network }],
      names: [],
    });
    const first = await openAuthority(folder, at('192.168.1.20', '192.168.1.0/24'), now);
    expect(first.isNew).toBe(true);
    const again = await openAuthority(
      folder,
      at('192.168.1.77', '192.168.1.0/24'),
      new Date(now.getTime() + 300 * day),
    );
    expect([again.isNew, again.fingerprint]).toEqual([false, first.fingerprint]);
    const moved = await openAuthority(folder, at('10.0.0.4', '10.0.0.0/8'), now);
    expect([moved.isNew, moved.fingerprint === first.fingerprint]).toEqual([true, false]);
    const late = new Date(now.getTime() + 3650 * day - 396 * day);
    expect((await openAuthority(folder, at('10.0.0.4', '10.0.0.0/8'), late)).isNew).toBe(true);
  });
});

describe('the names of this computer', () => {
  const at = (address: string, netmask: string, internal = false) =>
    ({ address, netmask, internal, family: 'IPv4', mac: '', cidr: null }) as const;
  const interfaces = {
    lo: [at('127.0.0.1', '255.0.0.0', true)],
    wifi: [at('192.168.1.20', '255.255.255.0'), at('203.0.113.5', '255.255.255.0')],
    cable: [at('172.20.9.130', '255.255.255.128'), at('172.32.0.1', '255.255.0.0')],
  };

  it('are its addresses in private networks and its name, which no one else in the world goes by', () => {
    // source: RFC 1918, section 3, for what is private
    expect(ownNames('0.0.0.0', interfaces, 'Potting-Shed.home')).toEqual({
      addresses: [
        { address: '192.168.1.20', network: '192.168.1.0/24' },
        { address: '172.20.9.130', network: '172.20.9.128/25' },
      ],
      names: ['potting-shed', 'potting-shed.local'],
    });
    expect(ownNames('0.0.0.0', interfaces, 'büro_1').names).toEqual([]);
  });

  it('are one address where that alone is listened on', () => {
    expect(ownNames('127.0.0.1', interfaces, 'shed')).toEqual({
      addresses: [{ address: '127.0.0.1', network: '127.0.0.0/8' }],
      names: [],
    });
    expect(ownNames('203.0.113.5', interfaces, 'shed').addresses).toEqual([]);
  });
});
