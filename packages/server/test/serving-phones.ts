import { act, add, ensureOwner, makeKey, type Programme } from '@keelrow/records';
import { onTestFinished } from 'vitest';
import { type RunningServer, startServer } from '../src/index.ts';

/** A server of a programme in this process, without the browser app; ends with the test. */
export async function serve(programme: Programme, where: string): Promise<RunningServer> {
  const server = await startServer({
    programme,
    where,
    host: '127.0.0.1',
    port: 0,
    open: false,
    web: 'no such folder',
  });
  onTestFinished(() => server.close());
  return server;
}

export interface Answer<Body = unknown> {
  readonly status: number;
  readonly body: Body;
}

/** Somebody signed in: a browser or a phone with its cookie. */
export class Caller {
  readonly #server: RunningServer;
  readonly #cookie: string;

  private constructor(server: RunningServer, cookie: string) {
    this.#server = server;
    this.#cookie = cookie;
  }

  /** Signs in by a key, as a phone where it says what it is. */
  static async signIn(server: RunningServer, key: string, device?: string): Promise<Caller> {
    const response = await fetch(`${server.address}/api/sign-in`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ key, ...(device ? { device } : {}) }),
    });
    if (!response.ok) throw new Error(`not signed in: ${await response.text()}`);
    return new Caller(server, response.headers.get('set-cookie')!.split(';')[0]!);
  }

  async ask<Body = never>(method: string, path: string, body?: unknown): Promise<Answer<Body>> {
    const isFile = body instanceof Uint8Array;
    const response = await fetch(this.#server.address + path, {
      method,
      headers: {
        cookie: this.#cookie,
        ...(body === undefined
          ? {}
          : { 'content-type': isFile ? 'application/octet-stream' : 'application/json' }),
      },
      ...(body === undefined ? {} : { body: isFile ? Buffer.from(body) : JSON.stringify(body) }),
    });
    return { status: response.status, body: (await response.json()) as Body };
  }
}

/** The owner's browser, signed in. */
export async function owner(programme: Programme, server: RunningServer): Promise<Caller> {
  const key = await makeKey(programme, await ensureOwner(programme), 'sign in once', 5, new Date());
  return Caller.signIn(server, key);
}

/** A phone of a person, let in by the owner. */
export async function phoneOf(
  at: { readonly office: Caller; readonly server: RunningServer },
  person: string,
): Promise<Caller> {
  const { body } = await at.office.ask<{ key: string }>('POST', '/api/phones/let-in', { person });
  return Caller.signIn(at.server, body.key, 'a phone of the test');
}

const office = { person: null, device: null, via: 'command' as const };

/** A bed with two plants, traits and people of each role. Ids by what they are. */
export const smallGarden = (programme: Programme): Promise<Record<string, string>> =>
  act(programme, office, async (doing) => {
    const [recorder, guest, second] = await add(doing, 'people', [
      { code: 'MK', name: 'Mara', role: 'recorder' },
      { code: 'GG', role: 'guest' },
      { code: 'JT', role: 'recorder' },
    ]);
    const [bed, other] = await add(doing, 'places', [
      { code: 'bed-1', sort: 'bed', walk: 1 },
      { code: 'bed-2', sort: 'bed', walk: 2 },
    ]);
    const [height, flower] = await add(doing, 'traits', [
      { code: 'height', name: 'Height', sort: 'measured', unit: 'cm', least: 5, most: 300 },
      { code: 'first-flower', name: 'First flower', sort: 'staged' },
    ]);
    const [mother, genet] = await add(doing, 'genets', [
      { code: 'M-1', name: 'Slate' },
      { code: 'A-1', seed_parent: [{ genet: 'M-1', chance: 1 }] },
    ]);
    const [one, two] = await add(doing, 'plants', [
      { code: 'A-1/1', genet: 'A-1', place: 'bed-1', walk: 1, planted_on: '2020-04-01' },
      { code: 'A-1/2', genet: 'A-1', place: 'bed-1', walk: 2, planted_on: '2020-04-01' },
    ]);
    const ids = { recorder, guest, second, bed, other, height, flower, mother, genet, one, two };
    return ids as Record<string, string>;
  });
