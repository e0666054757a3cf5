import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const command = fileURLToPath(new URL('../../packages/cli/bin/keelrow.mjs', import.meta.url));

export interface RunningKeelrow {
  /** Address without a path. */
  readonly address: string;
  /** The link printed for the first user. */
  readonly link: string;
  readonly data: string;
  stop(): Promise<void>;
}

/** Starts the built command as a user would, on any free port, and waits until it says where it serves. */
export async function startKeelrow(
  args: readonly string[],
  data = mkdtempSync(join(tmpdir(), 'keelrow-run-')),
): Promise<RunningKeelrow> {
  const child: ChildProcess = spawn(process.execPath, [command, ...args, '--data', data, '--port', '0'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const link = await new Promise<string>((resolve, reject) => {
    const hear = (bytes: Buffer) => {
      said += bytes.toString();
      const found = /Open (http\S+)/.exec(said);
      if (found) resolve(found[1]!);
    };
    child.stdout!.on('data', hear);
    child.stderr!.on('data', hear);
    child.once('exit', (code) => reject(new Error(`keelrow ended with ${code}: ${said}`)));
  });
  return {
    address: new URL(link).origin,
    link,
    data,
    async stop() {
      child.kill('SIGTERM');
      await ended;
      rmSync(data, { recursive: true, force: true });
    },
  };
}

/** Runs the built command to its end. */
export async function runKeelrow(
  args: readonly string[],
): Promise<{ status: number | null; out: string; err: string }> {
  const child = spawn(process.execPath, [command, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
  let [out, err] = ['', ''];
  child.stdout.on('data', (bytes: Buffer) => {
    out += bytes.toString();
  });
  child.stderr.on('data', (bytes: Buffer) => {
    err += bytes.toString();
  });
  const status = await new Promise<number | null>((resolve) => child.once('close', resolve));
  return { status, out, err };
}
