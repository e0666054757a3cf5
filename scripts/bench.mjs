import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir, totalmem } from 'node:os';
import { join } from 'node:path';
import { crossedDesigns } from './bench-lme4.mjs';
import { benchmarksPage, benchmarksTable } from './bench-report.mjs';
import { besideLme4 } from './bench-report-lme4.mjs';
import { build, giveUp, install, root } from './steps.mjs';

/**
 * Measures what the benchmarks promise, each in a process of its own, prints the table and keeps the figures in bench-results.
 *   npm run bench                     gardens of 1,000, 20,000 and 100,000 genets (about a quarter of an hour)
 *   npm run bench -- --small          1,000 and 20,000 genets
 *   npm run bench -- --without-lme4   leaves out the fits by R's lme4, which are made where R and lme4 are installed
 *   npm run bench -- --write          writes docs/benchmarks.md anew
 */
const known = ['--small', '--without-lme4', '--write'];
const given = process.argv.slice(2);
const strange = given.find((word) => !known.includes(word));
if (strange) giveUp(`“${strange}” is no option of the benchmark: it knows ${known.join(', ')}.`);
const sizes = given.includes('--small') ? [1_000, 20_000] : [1_000, 20_000, 100_000];
const listedSize = 20_000;
/** A trait that nearly every genet is noted for. */
const trait = 'first-flower';

install();
build();
const folder = mkdtempSync(join(tmpdir(), 'keelrow-bench-'));

/** Runs a measurement and returns the figures of its last line. */
function measure(script, ...args) {
  console.error(`… ${script} ${args.map((arg) => arg.replace(`${folder}/`, '')).join(' ')}`);
  const { status, stdout } = spawnSync(process.execPath, [join(root, 'packages', script), ...args], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
    maxBuffer: 1e8,
  });
  if (status !== 0) giveUp(`${script} ended with ${status}`);
  return stdout.trimEnd();
}
const figures = (script, ...args) =>
  JSON.parse(
    measure(script, ...args)
      .split('\n')
      .at(-1),
  );

const results = {
  date: new Date().toISOString().slice(0, 10),
  machine: `${cpus().length} cores, ${Math.round(totalmem() / 2 ** 30)} GB of memory, Node ${process.versions.node}`,
  gardens: [],
  estimates: [],
  pedigrees: [],
};
try {
  for (const size of sizes) {
    const garden = join(folder, `garden-${size}`);
    results.gardens.push(figures('records/bench/make-garden.mjs', garden, String(size)));
    results.estimates.push(figures('server/bench/estimate-trait.mjs', garden, trait));
    if (size === listedSize) {
      results.list = figures('server/bench/list-plants.mjs', garden);
      results.meanwhile = figures('server/bench/answer-while-fitting.mjs', garden, trait);
    }
    if (size === sizes[0])
      results.import = figures('records/bench/import-notes.mjs', garden, join(folder, 'notes.csv'));
    if (size === sizes[0]) results.phones = figures('server/bench/phones-hand-over.mjs', garden);
    rmSync(garden, { recursive: true });
  }
  results.inverses = [30, 1].map((family) =>
    figures('breeding/bench/pedigree-inverse.mjs', '--family', String(family)),
  );
  for (const size of sizes)
    results.pedigrees.push(figures('breeding/bench/pedigree-fit.mjs', '--genets', String(size)));
  if (!given.includes('--without-lme4')) {
    // Lecture evaluations: a copy beside the project where there is one, else lme4's own.
    const stored = join(root, '../shared/reference/open/c_insteval/data.csv.gz');
    const here = (...args) => figures('quant/bench/fit-crossed.mjs', ...args);
    results.crossed = crossedDesigns(folder, stored, here);
  }
  results.files = measure('records/bench/large-file.mjs');
} finally {
  rmSync(folder, { recursive: true, force: true });
}

console.log(benchmarksTable(results));
console.log(besideLme4(results));
const kept = join(root, 'bench-results');
mkdirSync(kept, { recursive: true });
writeFileSync(
  join(kept, `${new Date().toISOString().replace(/\D/g, '').slice(0, 14)}.json`),
  JSON.stringify(results, null, 2),
);
if (given.includes('--write')) writeFileSync(join(root, 'docs/benchmarks.md'), benchmarksPage(results));
