// Times one fit of a crossed design with all prediction error variances and prints the figures as a line of JSON:
//   node packages/quant/bench/fit-crossed.mjs lecture-evaluations FILE.csv
//   node packages/quant/bench/fit-crossed.mjs generated FILE.csv     (writes the table there, for other programs)
import { createWriteStream } from 'node:fs';
import { finished } from 'node:stream/promises';
import { fitTable } from '../dist/index.js';
import { bigCrossedTable, readColumns } from './crossed-data.mjs';

/** Log-likelihoods: by lme4 1.1-31; by an independent dense calculation. */
const designs = {
  'lecture-evaluations': {
    model: { response: 'y', fixed: ['service'], random: ['s', 'd', 'dept*service'] },
    reference: -118830.767859871,
  },
  generated: {
    model: { response: 'y', fixed: ['t'], random: ['s', 'd'] },
    reference: -333394.586142482,
  },
};

const [name, file] = process.argv.slice(2);
const { model, reference } = designs[name];
const table = name === 'generated' ? bigCrossedTable() : readColumns(file);
const start = performance.now();
const cpu = process.cpuUsage();
const result = fitTable(table, model);
const seconds = (performance.now() - start) / 1000;
const { user, system } = process.cpuUsage(cpu);
const off = Math.abs(result.remlLogLikelihood - reference);
if (!result.converged || off > 1e-4) throw new Error(`${name}: the fit is off by ${off}`);
console.log(
  JSON.stringify({
    name,
    rows: result.records,
    effects: result.effects.length,
    seconds,
    cpuSeconds: (user + system) / 1e6,
    rounds: result.iterations,
    remlLogLikelihood: result.remlLogLikelihood,
    peakMb: Math.round(process.resourceUsage().maxRSS / 1024),
  }),
);
if (name === 'generated') {
  const columns = [...table.columns];
  const out = createWriteStream(file);
  out.write(`${columns.map(([header]) => header).join(',')}\n`);
  for (let row = 0; row < result.records; row++)
    out.write(`${columns.map(([, cells]) => cells[row]).join(',')}\n`);
  out.end();
  await finished(out);
}
