import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { compressed } from './build/compressed-plugin.ts';
import { formerReleases } from './build/former-releases-plugin.ts';
import { serviceWorker } from './build/service-worker-plugin.ts';

/** When the app was built, or what the builder calls it: carried by the code and, for the server, beside it. */
const build = process.env.KEELROW_BUILD ?? new Date().toISOString().slice(0, 16);

const buildNote = (): Plugin => ({
  name: 'build-note',
  generateBundle() {
    this.emitFile({ type: 'asset', fileName: 'build.txt', source: `${build}\n` });
  },
});

/** Windows opened before an update find their files for as long as this many builds. */
const releasesKept = 4;

export default defineConfig({
  plugins: [react(), buildNote(), compressed(), formerReleases(build, releasesKept), serviceWorker()],
  root: fileURLToPath(new URL('.', import.meta.url)),
  // Packages of this workspace are taken from their TypeScript sources, so the app needs no build of theirs.
  resolve: {
    alias: [
      {
        find: /^@keelrow\/breeding\/(.+)$/,
        replacement: fileURLToPath(new URL('../breeding/src/$1/index.ts', import.meta.url)),
      },
    ],
  },
  define: { __BUILD__: JSON.stringify(build) },
  build: {
    outDir: 'dist/app',
    // Files of the builds before stay for a while; formerReleases clears what is older.
    emptyOutDir: false,
    target: ['es2022', 'chrome109', 'firefox115', 'safari16'],
    // The kinds of records are declarations without side effects: what a screen does not use is left out.
    rolldownOptions: {
      treeshake: { moduleSideEffects: [{ test: /packages\/breeding\//, sideEffects: false }] },
    },
    assetsInlineLimit: 0,
  },
  server: {
    host: '127.0.0.1',
    port: 5199,
    strictPort: true,
    // While the app is worked on, a server of Keelrow answers at this address.
    proxy: { '/api': 'http://127.0.0.1:5198' },
  },
});
