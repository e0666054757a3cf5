// Estimates all genets of a stored garden for one trait, kin and all. Run after `npm run build`, best by way of `npm run bench`:
//   node packages/server/bench/estimate-trait.mjs FOLDER TRAIT
import { evaluate, reportEstimates } from '@keelrow/breeding/evaluation';
import { openProgramme, readPedigree, readTraitNotes } from '@keelrow/records';
import { tell, timed } from '../../records/bench/measuring.mjs';

const [folder, trait] = process.argv.slice(2);
const programme = await openProgramme(folder);
const read = await timed(async () => ({
  data: await readTraitNotes(programme.read, trait),
  pedigree: await readPedigree(programme.read),
}));
await programme.close();
const { data, pedigree } = read.result;
const { result, seconds } = await timed(() => {
  const evaluation = evaluate(data.notes, pedigree, { trait: data.trait });
  return { evaluation, report: reportEstimates(evaluation, data.notes, data) };
});
const { fitted, model } = result.evaluation;
tell({
  trait,
  readSeconds: read.seconds,
  seconds,
  notes: result.report.notes,
  genets: result.report.genets,
  estimated: result.report.estimates.length,
  fixed: model.fixed,
  random: [...(model.additive ? ['additive'] : []), ...model.random],
  rounds: fitted.result.iterations,
  settled: fitted.result.converged,
});
