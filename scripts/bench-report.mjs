import { memory, seconds, whole } from './bench-figures.mjs';
import { besideLme4 } from './bench-report-lme4.mjs';

/** Exponent of the growth from one size to the next: 1 where twice the work takes twice the time. */
const exponent = (before, after, of) =>
  (Math.log(after.seconds / before.seconds) / Math.log(after[of] / before[of])).toFixed(2);

const memoryExponent = (before, after) =>
  (Math.log(after.peakMb / before.peakMb) / Math.log(after.genets / before.genets)).toFixed(2);

function rowsOf(results) {
  const { gardens, estimates, inverses, pedigrees, list, meanwhile, phones, files } = results;
  const rows = [];
  const taken = results.import;
  rows.push([
    'take in 100,000 notes from CSV',
    seconds(taken.seconds),
    memory(taken.peakMb),
    `${whole(taken.rowsPerSecond)} rows a second; on the way ${Math.min(...taken.sample.map(({ mb }) => mb))} to ${Math.max(...taken.sample.map(({ mb }) => mb))} MB; progress told ${taken.progressTold} times`,
    taken.seconds < 20 ? 'under 20 s: met' : 'under 20 s: MISSED',
  ]);
  for (const [index, garden] of gardens.entries()) {
    const growth = index > 0 ? `; exponent ${exponent(gardens[index - 1], garden, 'records')}` : '';
    rows.push([
      `simulate and store a garden of ${whole(garden.genets)} genets`,
      seconds(garden.seconds),
      memory(garden.peakMb),
      `${whole(garden.records)} records, ${whole(garden.records / garden.seconds)} a second${growth}`,
      '',
    ]);
  }
  for (const [index, fit] of estimates.entries()) {
    const growth = index > 0 ? `; exponent ${exponent(estimates[index - 1], fit, 'notes')}` : '';
    rows.push([
      `estimate with kinship: ${whole(fit.genets)} noted genets of a garden of ${whole(gardens[index].genets)}`,
      seconds(fit.seconds),
      memory(fit.peakMb),
      `${whole(fit.notes)} notes, ${whole(fit.estimated)} genets estimated; ${[...fit.fixed, ...fit.random].join(', ')}; ${fit.rounds} rounds; reading ${seconds(fit.readSeconds)}${growth}`,
      fit.settled ? '' : 'did not settle',
    ]);
  }
  for (const { genets, generations, parents, family, seconds: time, peakMb } of inverses)
    rows.push([
      `inverse relationship of ${whole(genets)} genets`,
      seconds(time),
      memory(peakMb),
      `${generations} overlapping generations of ${parents} parents, ${family > 1 ? `families of ${family}` : 'a couple for each seedling'}, a tenth with three to five possible pollen parents; inbreeding included`,
      `under 3 s: ${time <= 3 ? 'met' : 'MISSED'}`,
    ]);
  for (const [index, fit] of pedigrees.entries()) {
    const growth =
      index > 0
        ? `; exponents: time ${exponent(pedigrees[index - 1], fit, 'genets')}, memory ${memoryExponent(pedigrees[index - 1], fit)}`
        : '';
    const within = fit.seconds < 30 && fit.peakMb < 1500 ? 'met' : 'MISSED';
    rows.push([
      `fit with kinship: ${whole(fit.genets)} genets`,
      seconds(fit.seconds),
      memory(fit.peakMb),
      `${whole(fit.notes)} notes; additive, genet, plant, year × bed; all errors; ${fit.rounds} rounds, ${seconds(fit.cpuSeconds)} of a processor${growth}`,
      fit.genets === 20_000 ? `under 30 s and 1.5 GB: ${within}` : '',
    ]);
  }
  if (list) {
    rows.push([
      `list ${whole(list.genets)} genets for the first time`,
      seconds(list.firstSeconds),
      memory(list.peakMb),
      '',
      '',
    ]);
    for (const [what, { median, p95 }] of Object.entries(list.milliseconds))
      rows.push([
        `list them: ${what}`,
        `${median.toFixed(0)} ms`,
        '',
        `95 of 100 calls under ${p95.toFixed(0)} ms`,
        p95 < 100 ? 'under 100 ms: met' : 'under 100 ms: MISSED',
      ]);
  }
  if (meanwhile)
    rows.push([
      'answers of the server while it fits',
      `${meanwhile.meanwhile.median.toFixed(0)} ms`,
      memory(meanwhile.peakMb),
      `95 of 100 of ${whole(meanwhile.meanwhile.calls)} calls under ${meanwhile.meanwhile.p95.toFixed(0)} ms during an estimate of ${seconds(meanwhile.seconds)}; before it under ${meanwhile.quietly.p95.toFixed(0)} ms`,
      `under 100 ms: ${meanwhile.meanwhile.p95 < 100 ? 'met' : 'MISSED'}`,
    ]);
  if (phones)
    rows.push([
      `${phones.phones} phones hand over ${whole(phones.notes / phones.phones)} notes each at the same time`,
      seconds(phones.seconds),
      memory(phones.peakMb),
      `500 at a time, then what changed is fetched; ${seconds(phones.cpuSeconds)} of a processor, server and phones in one process; all that a walk needs (${whole(phones.plants)} plants, ${whole(phones.heldNotes)} notes) fetched in ${seconds(phones.holdingsSeconds)}`,
      `under 10 s: ${phones.seconds < 10 ? 'met' : 'MISSED'}`,
    ]);
  for (const [, what, time, peak, note] of files.matchAll(
    /^(.+?) {2,}([\d.]+) s +peak memory so far (\d+) MB +(.*)$/gm,
  ))
    rows.push([`large files: ${what}`, `${time} s`, memory(Number(peak)), note, '']);
  return rows;
}

const headers = ['what', 'time', 'peak memory', 'more', 'promised'];

/** The figures as a table in Markdown, which reads well in a terminal too. */
export function benchmarksTable(results) {
  const rows = [headers, ...rowsOf(results)];
  const widths = headers.map((_, column) => Math.max(...rows.map((row) => row[column].length)));
  const line = (cells) => `| ${cells.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`;
  return [line(rows[0]), line(widths.map((width) => '-'.repeat(width))), ...rows.slice(1).map(line)].join(
    '\n',
  );
}

/** The whole page of docs/benchmarks.md. */
export function benchmarksPage(results) {
  return `# How fast it is

Written by \`npm run bench -- --write\` on ${results.date}; ${results.machine}, other work going on at the time, so take a figure
for within a third. Each line is a process of its own, so that its peak memory is its own. An exponent is that of the growth from
the line above: 1 where twice the work takes twice the time.

${benchmarksTable(results)}

Gardens are simulated (see [demo-garden.md](demo-garden.md)); the trait estimated is the day of first flower, which most genets that
flowered are noted for. Storing is one act with every rule checked, as an import is. Lists are asked of the server's own code on a
stored garden, 50 calls each, the page's 200 rows cut out of all; the first list after a change of the records reads them anew.
${besideLme4(results)}`;
}
