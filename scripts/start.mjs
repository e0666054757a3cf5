import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { build, install, root } from './steps.mjs';

install();
build();
// What stands behind `npm start --` goes to the command: npm start -- --port 5000
const server = spawn(
  process.execPath,
  [join(root, 'packages/cli/bin/keelrow.mjs'), 'demo', ...process.argv.slice(2)],
  {
    cwd: root,
    stdio: 'inherit',
  },
);
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => server.kill(signal));
server.on('exit', (code) => process.exit(code ?? 0));
