#!/usr/bin/env node
import { existsSync } from 'node:fs';

const main = new URL('../dist/main.js', import.meta.url);
if (!existsSync(main)) {
  console.error('keelrow is not built yet: run “npm ci”, then “npm run build”');
  process.exit(1);
}
await import(main.href);
