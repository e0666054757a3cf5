import { spawnSync } from 'node:child_process';

/**
 * Fits the same model to the same table with R's lme4 and returns its seconds, memory and log-likelihood; null, with a
 * word, where R or lme4 is not installed.
 */
export function fitWithLme4(table, { fixed, random }) {
  const formula = `value ~ ${[...fixed, ...random.map((term) => `(1 | ${term})`)].join(' + ') || '1'}`;
  const program = `
    suppressMessages(library(lme4))
    d <- read.csv(commandArgs(TRUE)[1])
    for (name in setdiff(names(d), "value")) d[[name]] <- factor(d[[name]])
    seconds <- system.time({
      m <- lmer(${formula}, d, control = lmerControl(calc.derivs = FALSE))
      r <- ranef(m, condVar = TRUE)
    })[["elapsed"]]
    peak <- sum(gc()[, 6])
    cat(sprintf('{"version":"%s","seconds":%.3f,"remlLogLikelihood":%.6f,"peakMb":%.0f}', packageVersion("lme4"), seconds, logLik(m), peak))
  `;
  const { status, stdout, stderr, error } = spawnSync('Rscript', ['--vanilla', '-e', program, table], {
    encoding: 'utf8',
  });
  if (error || status !== 0) {
    console.error(`lme4 was left out: ${error ? 'Rscript is not here' : stderr.trim().split('\n').at(-1)}`);
    return null;
  }
  return JSON.parse(stdout);
}
