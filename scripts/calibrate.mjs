import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { calibrationTables, writeTables } from './calibrate-report.mjs';
import { build, giveUp, install, root } from './steps.mjs';

/**
 * Holds estimates against the truth of simulated gardens, each in a process of its own, and prints the tables.
 *   npm run calibrate                     50 gardens of each world (some minutes on two cores)
 *   npm run calibrate -- --gardens 10     so many of each
 *   npm run calibrate -- --write          writes the tables into docs/checks.md
 */
const given = process.argv.slice(2);
const at = given.indexOf('--gardens');
const gardens = at < 0 ? 50 : Number(given[at + 1]);
const strange = given.find(
  (word, k) => !['--gardens', '--write'].includes(word) && !(at >= 0 && k === at + 1),
);
if (strange) giveUp(`“${strange}” is no option of the calibration: it knows --gardens NUMBER and --write.`);
if (!(Number.isInteger(gardens) && gardens >= 2)) giveUp('--gardens takes a whole number, 2 or more.');

install();
build();
const demo = await import(join(root, 'packages/demo/dist/index.js'));

const script = join(root, 'packages/records/bench/calibrate-garden.mjs');
const jobs = Array.from({ length: gardens }, (_, k) => k + 1).flatMap((seed) => [
  ['other', seed],
  ['model', seed],
]);

/** The figures of one garden. */
const measured = (world, seed) =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, [script, world, String(seed)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let told = '';
    child.stdout.on('data', (part) => {
      told += part;
    });
    child.on('close', (status) => {
      if (status !== 0) giveUp(`The garden ${seed} of the world “${world}” ended with ${status}.`);
      resolve(JSON.parse(told.trimEnd().split('\n').at(-1)));
    });
  });

const results = [];
let next = 0;
async function workThrough() {
  while (next < jobs.length) {
    const [world, seed] = jobs[next++];
    results.push(await measured(world, seed));
    if (results.length % 10 === 0) console.error(`… ${results.length} of ${jobs.length} gardens`);
  }
}
await Promise.all(Array.from({ length: Math.min(2, availableParallelism()) }, workThrough));
results.sort((a, b) => a.seed - b.seed);

const tables = calibrationTables(results, demo);
console.log(tables);
if (given.includes('--write') && !writeTables(tables, new Date().toISOString().slice(0, 10)))
  giveUp('docs/checks.md has no marks for the tables of the calibration.');
