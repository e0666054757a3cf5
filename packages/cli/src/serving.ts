import { fileURLToPath } from 'node:url';
import type { Programme } from '@keelrow/records';
import { startServer } from '@keelrow/server';
import { InputError } from './telling.ts';

export function portOf(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65535)
    throw new InputError(`“${text}” is not a port`, 'give a number from 0 to 65535');
  return port;
}

const web = fileURLToPath(new URL('../../web/dist/app', import.meta.url));

/** Serves until the process is asked to end; prints where, and what the owner should know. */
export async function serveUntilStopped(
  programme: Programme,
  where: string,
  { host, port, open }: { host: string; port: number; open: boolean },
): Promise<void> {
  const server = await startServer({ programme, where, host, port, open, web }).catch(
    async (error: unknown) => {
      await programme.close();
      throw error;
    },
  );
  for (const warning of programme.warnings) console.error(warning);
  console.log(`Keelrow serves ${programme.location}`);
  console.log(
    open
      ? `Open ${server.link} on this computer (no sign-in). Ctrl+C ends it.`
      : `Open ${server.link} within fifteen minutes to sign in. Ctrl+C ends it.`,
  );
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
  await server.close();
  await programme.close();
}
