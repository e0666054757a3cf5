import { memory, seconds, whole } from './bench-figures.mjs';

/** Ratios of one run against lme4 on crossed designs. Empty where R was not there. */
export function besideLme4({ crossed }) {
  const rows = [];
  for (const { what, ours, lme4: theirs } of crossed ?? [])
    if (theirs) rows.push({ what, rows: ours.rows, ours, lme4: theirs });
  if (rows.length === 0) return '';
  const cpu = (fit) => (fit.cpuSeconds === undefined ? '' : ` (${seconds(fit.cpuSeconds)})`);
  const lines = rows.map(({ what, rows: count, ours, lme4: theirs }) => [
    what,
    whole(count),
    `${seconds(ours.seconds)}${cpu(ours)}`,
    memory(ours.peakMb),
    `${seconds(theirs.seconds)}${cpu(theirs)}`,
    memory(theirs.peakMb),
    `1 : ${(theirs.seconds / ours.seconds).toFixed(1)}`,
    Math.abs(ours.remlLogLikelihood - theirs.remlLogLikelihood).toExponential(0),
  ]);
  const headers = ['model', 'rows', 'here', 'memory', 'lme4', 'memory', 'ratio', 'log-likelihoods differ by'];
  const table = [headers, headers.map(() => '---'), ...lines].map((cells) => `| ${cells.join(' | ')} |`);
  return `
## Beside lme4

The same tables and models by R's lme4 ${rows[0].lme4.version} without derivatives, with the conditional variances of its effects, one after the
other in one run; here with the prediction error variances of all effects. Seconds of a processor in brackets. Promised: at most a
third of the time of lme4 for the crossed designs.

${table.join('\n')}
`;
}
