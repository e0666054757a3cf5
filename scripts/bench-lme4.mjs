import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';

/** What R prints for a program, its last line; null, with a word, where R or a package is not installed. */
function askR(program, ...args) {
  const { status, stdout, stderr, error } = spawnSync('Rscript', ['--vanilla', '-e', program, ...args], {
    encoding: 'utf8',
  });
  if (!error && status === 0) return stdout.trim().split('\n').at(-1);
  console.error(`lme4 was left out: ${error ? 'Rscript is not here' : stderr.trim().split('\n').at(-1)}`);
  return null;
}

/**
 * Fits the same model to the same table with R's lme4, conditional variances of its effects included, and returns its
 * seconds, memory and log-likelihood; null, with a word, where R or lme4 is not installed.
 *
 * @param random terms as lme4 writes them (`a:b` for a combination)
 */
function fitWithLme4(table, { response = 'value', fixed, random }) {
  const formula = `${response} ~ ${[...fixed, ...random.map((term) => `(1 | ${term})`)].join(' + ') || '1'}`;
  const program = `
    suppressMessages(library(lme4))
    d <- read.csv(commandArgs(TRUE)[1])
    for (name in setdiff(names(d), "${response}")) d[[name]] <- factor(d[[name]])
    used <- system.time({
      m <- lmer(${formula}, d, control = lmerControl(calc.derivs = FALSE))
      r <- ranef(m, condVar = TRUE)
    })
    peak <- sum(gc()[, 6])
    cat(sprintf('{"version":"%s","seconds":%.3f,"cpuSeconds":%.3f,"remlLogLikelihood":%.6f,"peakMb":%.0f}',
      packageVersion("lme4"), used[["elapsed"]], used[["user.self"]] + used[["sys.self"]], logLik(m), peak))
  `;
  const line = askR(program, table);
  return line && JSON.parse(line);
}

/** Lecture evaluations (InstEval of lme4) as a CSV file: a stored copy where there is one, else written by R; null without both. */
function lectureEvaluations(folder, stored) {
  const file = join(folder, 'lecture-evaluations.csv');
  if (existsSync(stored)) {
    writeFileSync(file, gunzipSync(readFileSync(stored)));
    return file;
  }
  const program =
    'data(InstEval, package = "lme4"); write.csv(InstEval, commandArgs(TRUE)[1], row.names = FALSE, quote = FALSE)';
  return askR(`${program}; cat("done")`, file) && file;
}

/**
 * Crossed designs fitted here and by lme4, one after the other in one run.
 *
 * @param here runs the measurement of a design on a file and returns its figures
 */
export function crossedDesigns(folder, stored, here) {
  const compared = [];
  const lectures = lectureEvaluations(folder, stored);
  if (lectures) {
    const model = { response: 'y', fixed: ['service'], random: ['s', 'd', 'dept:service'] };
    compared.push({
      what: 'lecture evaluations',
      model,
      ours: here('lecture-evaluations', lectures),
      lme4: fitWithLme4(lectures, model),
    });
  }
  const generated = join(folder, 'crossed.csv');
  const model = { response: 'y', fixed: ['t'], random: ['s', 'd'] };
  const ours = here('generated', generated);
  compared.push({ what: 'generated crossed design', model, ours, lme4: fitWithLme4(generated, model) });
  return compared;
}
