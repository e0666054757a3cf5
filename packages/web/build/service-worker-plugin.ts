import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'vite';
import { compressed } from './compressed-plugin.ts';

const web = fileURLToPath(new URL('..', import.meta.url));

/** Files that the app fetches off line; others, such as icons of the home screen, the browser keeps itself. */
const kept = /\.(js|css|html|svg|woff2|webmanifest)$/;

/** Builds sw.js beside the app, with the list of the app's own files in it. */
export function serviceWorker(): Plugin {
  let files: { url: string; revision: string | null }[] = [];
  let outDir = '';
  return {
    name: 'service-worker',
    apply: 'build',
    configResolved(config) {
      outDir = resolve(web, config.build.outDir);
    },
    writeBundle: {
      order: 'post',
      handler(_options, bundle) {
        files = [...Object.keys(bundle), 'manifest.webmanifest']
          .filter((name) => kept.test(name))
          .sort()
          .map((name) => ({
            url: `/${name}`,
            revision: name.startsWith('assets/') ? null : revisionOf(join(outDir, name)),
          }));
      },
    },
    closeBundle: {
      order: 'post',
      async handler() {
        await build({
          configFile: false,
          root: web,
          logLevel: 'warn',
          publicDir: false,
          define: { __SHELL__: JSON.stringify(files), 'process.env.NODE_ENV': '"production"' },
          plugins: [compressed()],
          build: {
            outDir,
            emptyOutDir: false,
            target: ['es2022', 'chrome109', 'firefox115', 'safari16'],
            rolldownOptions: {
              input: join(web, 'src/service-worker/service-worker.ts'),
              output: { format: 'iife', entryFileNames: 'sw.js' },
            },
          },
        });
      },
    },
  };
}

const revisionOf = (file: string): string =>
  createHash('sha256').update(readFileSync(file)).digest('hex').slice(0, 16);
