import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Address of a PostgreSQL cluster made for this run; null where PostgreSQL is not installed. */
    postgres: string | null;
  }
}

/** Folder of PostgreSQL's programs, newest version first, as Debian and its kin lay them out. */
function programs(): string | null {
  const root = '/usr/lib/postgresql';
  if (!existsSync(root)) return null;
  const versions = readdirSync(root).sort((a, b) => Number(b) - Number(a));
  return (
    versions.map((version) => join(root, version, 'bin')).find((bin) => existsSync(join(bin, 'initdb'))) ??
    null
  );
}

async function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() =>
        typeof address === 'object' && address ? resolve(address.port) : reject(new Error('no port')),
      );
    });
  });
}

/**
 * Makes a PostgreSQL cluster of the run's own in a temporary folder, on a loopback port of its own, and takes it
 * away afterwards. PostgreSQL refuses to run as root: then it runs as the user nobody.
 */
export default async function postgresCluster(
  project: TestProject,
): Promise<(() => Promise<void>) | undefined> {
  const bin = programs();
  if (!bin) {
    project.provide('postgres', null);
    return undefined;
  }
  const folder = mkdtempSync(join(tmpdir(), 'keelrow-postgres-'));
  const asRoot = process.getuid?.() === 0;
  if (asRoot) execFileSync('chown', ['nobody', folder]);
  const command = (program: string, args: string[]): [string, string[]] =>
    asRoot ? ['runuser', ['-u', 'nobody', '--', join(bin, program), ...args]] : [join(bin, program), args];
  const data = join(folder, 'data');
  const [initdb, initArgs] = command('initdb', [
    '-D',
    data,
    '-U',
    'keelrow',
    '-A',
    'trust',
    '--locale=C',
    '--encoding=UTF8',
  ]);
  execFileSync(initdb, initArgs, { stdio: 'pipe', cwd: folder });
  const port = await freePort();
  const [postgres, args] = command('postgres', [
    '-D',
    data,
    '-h',
    '127.0.0.1',
    '-p',
    String(port),
    '-k',
    folder,
  ]);
  const server = spawn(postgres, args, { stdio: ['ignore', 'ignore', 'pipe'], cwd: folder });
  await new Promise<void>((resolve, reject) => {
    let said = '';
    server.stderr.on('data', (bytes: Buffer) => {
      said += bytes.toString();
      if (said.includes('ready to accept connections')) resolve();
    });
    server.once('exit', (code) => reject(new Error(`PostgreSQL ended with ${code}: ${said}`)));
  });
  project.provide('postgres', `postgres://keelrow@127.0.0.1:${port}/postgres`);
  return async () => {
    const [control, stopArgs] = command('pg_ctl', ['-D', data, '-m', 'immediate', 'stop']);
    execFileSync(control, stopArgs, { stdio: 'pipe', cwd: folder });
    rmSync(folder, { recursive: true, force: true });
  };
}
