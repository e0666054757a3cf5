import { fileURLToPath } from 'node:url';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

/** When the app was built, or what the builder calls it: carried by the code and, for the server, beside it. */
const build = process.env.KEELROW_BUILD ?? new Date().toISOString().slice(0, 16);

const buildNote = (): Plugin => ({
  name: 'build-note',
  generateBundle() {
    this.emitFile({ type: 'asset', fileName: 'build.txt', source: `${build}\n` });
  },
});

/** Beside each text file its compressed forms, for servers that hand them out as they are. */
const compressed = (): Plugin => ({
  name: 'compressed',
  enforce: 'post',
  generateBundle: {
    order: 'post',
    handler(_options, bundle) {
      for (const file of Object.values(bundle)) {
        if (!/\.(js|css|html|svg)$/.test(file.fileName)) continue;
        const text = Buffer.from(file.type === 'chunk' ? file.code : file.source);
        this.emitFile({ type: 'asset', fileName: `${file.fileName}.br`, source: brotliCompressSync(text) });
        this.emitFile({ type: 'asset', fileName: `${file.fileName}.gz`, source: gzipSync(text) });
      }
    },
  },
});

export default defineConfig({
  plugins: [react(), buildNote(), compressed()],
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
    emptyOutDir: true,
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
