import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { built } from '../../../../tests/support/built.ts';

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly said: string;
}

/** Path of the keelrow command of this clone; it runs what was built. */
export function keelrowCommand(): string {
  built('packages/cli/dist/main.js');
  return built('packages/cli/bin/keelrow.mjs');
}

export const support = (script: string): string => fileURLToPath(new URL(script, import.meta.url));

/** Runs a program and waits for its end. */
export function run(program: string, args: readonly string[], environment: NodeJS.ProcessEnv = {}): Ran {
  const { status, stdout, stderr } = spawnSync(program, args, {
    encoding: 'utf8',
    env: { ...process.env, KEELROW_DATA: undefined, ...environment },
    cwd: '/',
  });
  return { status, out: stdout, said: stderr };
}

/** Runs the keelrow command. */
export const keelrow = (...args: readonly string[]): Ran =>
  run(process.execPath, [keelrowCommand(), ...args]);

/** How this machine lets us have mounts of our own: as root, or as a user who is root in a name space of his own. */
const ownMounts = [
  ['-m', '--propagation', 'private'],
  ['-r', '-m', '--propagation', 'private'],
].find((way) => run('unshare', [...way, 'sh', '-c', 'mount -t tmpfs -o size=1m tmpfs /mnt']).status === 0);

export const mayMount = (): boolean => ownMounts !== undefined;

/** Runs a shell script that may mount what it likes; all its mounts are gone when it ends. */
export function runInOwnMounts(script: string): Ran {
  if (!ownMounts) throw new Error('this machine lets us mount nothing');
  return run('unshare', [...ownMounts, 'sh', '-c', script]);
}
