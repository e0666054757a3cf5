import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { built } from '../../../../tests/support/built.ts';

/** Puts the writer with all that it loads into one file, which halves the time that it takes to start. */
export async function bundleWriter(): Promise<string> {
  built('packages/records/dist/index.js');
  // Within the project, so that the parts left out are found from there.
  const folder = fileURLToPath(
    new URL(`../../../../node_modules/.keelrow-writer-${process.pid}`, import.meta.url),
  );
  await build({
    configFile: false,
    logLevel: 'silent',
    build: {
      ssr: fileURLToPath(new URL('writer.mjs', import.meta.url)),
      outDir: folder,
      minify: false,
      rollupOptions: { external: ['better-sqlite3', 'pg'], output: { entryFileNames: 'writer.mjs' } },
    },
    ssr: { noExternal: true },
  });
  return folder;
}

export interface Writer {
  /** Ids of the notes that it said were stored, so far. */
  readonly acknowledged: readonly string[];
  /** Ends when the process has ended; says how, and what it said on standard error. */
  readonly ended: Promise<{ status: number | null; signal: string | null; said: string }>;
  /** Ends when so many are acknowledged, or the process has ended before. */
  acknowledges(count: number): Promise<void>;
  kill(): void;
}

/** Starts a process that writes notes. most: how many; without it for ever. */
export function startWriter(bundle: string, where: string, most?: number): Writer {
  const child = spawn(process.execPath, [`${bundle}/writer.mjs`, where, ...(most ? [String(most)] : [])], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const acknowledged: string[] = [];
  const waiting: { count: number; done: () => void }[] = [];
  let rest = '';
  let said = '';
  child.stdout.on('data', (bytes: Buffer) => {
    const lines = (rest + bytes.toString()).split('\n');
    rest = lines.pop()!;
    acknowledged.push(...lines);
    for (const { count, done } of waiting) if (acknowledged.length >= count) done();
  });
  child.stderr.on('data', (bytes: Buffer) => {
    said += bytes.toString();
  });
  const ended = new Promise<{ status: number | null; signal: string | null; said: string }>((resolve) => {
    child.once('close', (status, signal) => {
      for (const { done } of waiting) done();
      resolve({ status, signal, said });
    });
  });
  return {
    acknowledged,
    ended,
    acknowledges: (count) =>
      new Promise((done) => {
        if (acknowledged.length >= count) done();
        else waiting.push({ count, done });
      }),
    kill: () => child.kill('SIGKILL'),
  };
}
