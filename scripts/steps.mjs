import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** Ends with words for the person, not with a stack trace. */
export function giveUp(words) {
  console.error(words);
  process.exit(1);
}

/** Runs a command in the project's folder and shows what it prints; returns whether it went well. */
export function run(command, args, options = {}) {
  const shell = process.platform === 'win32';
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: 'inherit', shell, ...options });
  if (error) console.error(`${command}: ${error.message}`);
  return status === 0;
}

function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    giveUp(`Keelrow needs Node.js 20.19 or newer (24 is recommended); this is ${process.versions.node}.`);
  }
}

const compilerAdvice =
  'No prebuilt SQLite was found for this machine and none could be compiled: install Python 3, make and a C++ compiler (Debian and Ubuntu: apt-get install python3 make g++), then run this again.';

function sqliteLoads() {
  try {
    const Database = createRequire(join(root, 'packages/records/package.json'))('better-sqlite3');
    new Database(':memory:').close();
    return true;
  } catch {
    return false;
  }
}

/** Installs the packages of the lock file where they are missing or the lock file has changed since. */
export function install() {
  checkNode();
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  const mark = join(root, 'node_modules/.keelrow-installed');
  if (existsSync(mark) && readFileSync(mark, 'utf8') === lock && sqliteLoads()) return;
  console.error('Installing packages (where SQLite has to be compiled this takes a few minutes) …');
  const { status, stderr } = spawnSync(
    'npm',
    ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'],
    {
      cwd: root,
      encoding: 'utf8',
      stdio: ['ignore', 'inherit', 'pipe'],
      shell: process.platform === 'win32',
      maxBuffer: 64 * 1024 * 1024,
    },
  );
  if (status !== 0) {
    // The compiler's complaints run over hundreds of lines; one that helps is better.
    if (/gyp ERR|prebuild-install/.test(stderr ?? '')) giveUp(compilerAdvice);
    giveUp(
      `${(stderr ?? '').trim().split('\n').slice(0, 12).join('\n')}\nThe packages could not be installed. Is the network there?`,
    );
  }
  if (!sqliteLoads() && !(run('npm', ['rebuild', 'better-sqlite3']) && sqliteLoads())) giveUp(compilerAdvice);
  writeFileSync(mark, lock);
}

/** Compiles the packages and builds the browser app. */
export function build() {
  const bin = (name) => join(root, 'node_modules/.bin', name);
  if (!run(bin('tsc'), ['-b', 'packages/cli', 'packages/web']))
    giveUp('The TypeScript build failed; see the lines above.');
  if (!run(bin('vite'), ['build', '--logLevel', 'warn'], { cwd: join(root, 'packages/web') })) {
    giveUp('The browser app could not be built; see the lines above.');
  }
}
