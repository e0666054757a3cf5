import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

const web = fileURLToPath(new URL('..', import.meta.url));

/** Files under assets/ of this build and of those before it, newest first. */
interface Release {
  readonly build: string;
  readonly assets: readonly string[];
}

/**
 * Keeps the hashed files of the last builds, for windows that were opened before an update and fetch a screen after it.
 * Takes the place of Vite's emptying of the folder: what belongs to none of the builds kept is taken away.
 */
export function formerReleases(thisBuild: string, releases: number): Plugin {
  let outDir = '';
  const written = new Set<string>();
  return {
    name: 'former-releases',
    apply: 'build',
    configResolved(config) {
      outDir = resolve(web, config.build.outDir);
    },
    writeBundle(_options, bundle) {
      for (const name of Object.keys(bundle)) if (name.startsWith('assets/')) written.add(name);
    },
    closeBundle() {
      const list = join(outDir, 'releases.json');
      const before = existsSync(list) ? (JSON.parse(readFileSync(list, 'utf8')) as Release[]) : [];
      const kept: Release[] = [
        { build: thisBuild, assets: [...written].sort() },
        ...before.filter(({ build }) => build !== thisBuild),
      ].slice(0, releases);
      const wanted = new Set(kept.flatMap(({ assets }) => assets));
      for (const name of readdirSync(join(outDir, 'assets')))
        if (!wanted.has(`assets/${name}`)) rmSync(join(outDir, 'assets', name));
      writeFileSync(list, `${JSON.stringify(kept, null, 1)}\n`);
    },
  };
}
