import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, install, root, run } from './steps.mjs';

/** Debian's package for a program that the tests need, installed where it is missing and we may. */
function need(what, isThere, debianPackage) {
  if (isThere()) return;
  console.error(`Installing ${debianPackage} for the tests …`);
  const sudo = process.getuid?.() === 0 ? [] : ['sudo', '-n'];
  const apt = (...args) =>
    run([...sudo, 'apt-get', ...args][0], [...sudo, 'apt-get', ...args].slice(1), {
      stdio: ['ignore', 'ignore', 'inherit'],
    });
  apt('update', '-qq');
  apt('install', '-y', '-qq', '--no-install-recommends', debianPackage);
  if (!isThere())
    console.error(`${what} is not here and could not be installed: its tests count as skipped.`);
}

const onPath = (name) => spawnSync('sh', ['-c', `command -v ${name}`]).status === 0;

install();
build();
need('A browser', () => ['chromium', 'chromium-browser', 'google-chrome'].some(onPath), 'chromium');
need(
  'PostgreSQL',
  () =>
    existsSync('/usr/lib/postgresql') &&
    spawnSync('sh', ['-c', 'ls /usr/lib/postgresql/*/bin/initdb']).status === 0,
  'postgresql',
);

const bin = (name) => join(root, 'node_modules/.bin', name);
const checks = [
  ['format and lint', bin('biome'), ['check', '.']],
  ['types of the tests', bin('tsc'), ['-p', 'tsconfig.tests.json']],
  ['floors', bin('depcruise'), ['--config', '.dependency-cruiser.cjs', 'packages', '--output-type', 'err']],
  ['unused code', bin('knip'), ['--no-progress']],
];
let [passed, failed, skipped] = [0, 0, 0];
for (const [name, command, args] of checks) {
  const well = run(command, args);
  console.log(`${well ? 'passed' : 'FAILED'}: ${name}`);
  if (well) passed += 1;
  else failed += 1;
}

const folder = mkdtempSync(join(tmpdir(), 'keelrow-test-'));
const report = join(folder, 'report.json');
const ranWell = run(
  bin('vitest'),
  ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...process.argv.slice(2)],
  {
    env: { ...process.env, TZ: 'UTC', LC_ALL: 'C.UTF-8' },
  },
);
if (existsSync(report)) {
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, numFailedTestSuites } = JSON.parse(
    readFileSync(report, 'utf8'),
  );
  passed += numPassedTests;
  failed += numFailedTests;
  skipped += numPendingTests + numTodoTests;
  // A file that could not even be loaded has failed, though it counts no test.
  if (!ranWell && numFailedTests === 0) failed += Math.max(1, numFailedTestSuites);
} else failed += 1;
rmSync(folder, { recursive: true, force: true });

console.log(`\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exit(failed === 0 && ranWell ? 0 : 1);
