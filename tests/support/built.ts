import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = new URL('../../', import.meta.url);

/** Path of a built file below the root of the project; says what to do where it was not built. */
export function built(path: string): string {
  const file = fileURLToPath(new URL(path, root));
  if (!existsSync(file)) throw new Error(`${path} is not there: run “npm run build” first`);
  return file;
}
