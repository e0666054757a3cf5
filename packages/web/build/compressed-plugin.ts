import { brotliCompressSync, gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';

/** Beside each text file its compressed forms, for servers that hand them out as they are. */
export const compressed = (): Plugin => ({
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
