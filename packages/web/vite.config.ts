import react from '@vitejs/plugin-react';
import { defaultClientConditions, defineConfig } from 'vite';
import { standIn } from './dev/stand-in.ts';

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react(), standIn()],
  // Packages of this workspace are taken from their TypeScript sources, so the app needs no build of theirs.
  resolve: { conditions: ['source', ...defaultClientConditions] },
  define: { __BUILD__: JSON.stringify(process.env.KEELROW_BUILD ?? new Date().toISOString().slice(0, 16)) },
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
  server: { host: '127.0.0.1', port: 5199, strictPort: true },
});
