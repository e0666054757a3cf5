// Estimates all genets of a stored garden for one trait. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/server/bench/estimate-trait.mjs FOLDER TRAIT [TABLE]
// With TABLE the table that the model was fitted to is written there as CSV, for other programs to fit.
import { createWriteStream } from 'node:fs';
import { evaluate, reportEstimates } from '@keelrow/breeding/evaluation';
import { openProgramme, readTraitNotes } from '@keelrow/records';
import { tell, timed } from '../../records/bench/measuring.mjs';
import { writeCsv } from '../../records/dist/tables/index.js';

const [folder, trait, tableFile] = process.argv.slice(2);
const programme = await openProgramme(folder);
const read = await timed(() => readTraitNotes(programme.read, trait));
await programme.close();
const data = read.result;
const { result, seconds } = await timed(() => {
  const evaluation = evaluate(data.notes);
  return { evaluation, report: reportEstimates(evaluation, data.notes, data) };
});
const { fitted, model, table } = result.evaluation;
tell({
  trait,
  readSeconds: read.seconds,
  seconds,
  notes: result.report.notes,
  genets: result.report.genets,
  fixed: model.fixed,
  random: model.random,
  rounds: fitted.result.iterations,
  settled: fitted.result.converged,
  remlLogLikelihood: fitted.result.remlLogLikelihood,
});
if (tableFile) {
  const columns = [...table.columns];
  const rows = data.notes.map((_, row) => columns.map(([, cells]) => cells[row]));
  await writeCsv(
    columns.map(([header]) => ({ header })),
    rows,
    createWriteStream(tableFile),
  );
}
