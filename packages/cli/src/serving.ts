import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Programme } from '@keelrow/records';
import { type RunningServer, startServer } from '@keelrow/server';
import type { LanPlace } from './lan.ts';
import { InputError } from './telling.ts';

export function portOf(text: string): number {
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65535)
    throw new InputError(`“${text}” is not a port`, 'give a number from 0 to 65535');
  return port;
}

const web = fileURLToPath(new URL('../../web/dist/app', import.meta.url));

interface ServingWanted {
  readonly host: string;
  readonly port: number;
  readonly open: boolean;
  readonly lan?: LanPlace | null;
}

/** Serves until the process is asked to end; prints where, and what the owner should know. */
export async function serveUntilStopped(
  programme: Programme,
  where: string,
  { lan, ...wanted }: ServingWanted,
): Promise<void> {
  const server = await begin(programme, where, wanted, lan ?? null).catch(async (error: unknown) => {
    await programme.close();
    throw error;
  });
  for (const warning of programme.warnings) console.error(warning);
  console.log(`Keelrow serves ${programme.location}`);
  console.log(
    wanted.open
      ? `Open ${server.link} on this computer (no sign-in). Ctrl+C ends it.`
      : `Open ${server.link} within fifteen minutes to sign in. Ctrl+C ends it.`,
  );
  if (lan) tellPhones(server);
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
  await server.close();
  await programme.close();
}

async function begin(
  programme: Programme,
  where: string,
  wanted: Omit<ServingWanted, 'lan'>,
  lan: LanPlace | null,
): Promise<RunningServer> {
  if (!lan) return startServer({ programme, where, ...wanted, web });
  if (programme.folder === null)
    throw new InputError(
      'with --lan a certificate is kept, and no folder for it is named beside the PostgreSQL address',
      'name one with --files',
    );
  const folder = join(programme.folder, 'certificate');
  const onNews = (words: string) => console.error(words);
  return startServer({ programme, where, ...wanted, web, lan: { ...lan, folder, onNews } });
}

function tellPhones({ reach }: RunningServer): void {
  const [first, ...others] = reach.origins;
  console.log(
    `Phones in the same network reach it at ${first}${others.map((origin) => `, ${origin}`).join('')}`,
  );
  console.log(
    `A phone that comes for the first time opens ${reach.helper} and is led through trusting this computer.`,
  );
  console.log(`Its certificate has the SHA-256 fingerprint ${reach.fingerprint}`);
}
