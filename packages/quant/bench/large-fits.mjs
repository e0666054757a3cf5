import { existsSync } from 'node:fs';
import { fitTable } from '../dist/index.js';
import { bigCrossedTable, readColumns } from './crossed-data.mjs';

/**
 * @typedef {object} FitTiming
 * @property {string} name
 * @property {number} rows
 * @property {number} milliseconds from the table in memory to the result with all prediction errors
 * @property {number} iterations
 * @property {number} remlLogLikelihood
 * @property {number} offReference difference of the log-likelihood from the reference value
 * @property {number} megabytes of the whole process after the fit
 */

/**
 * University lecture evaluations: 73,421 rows, 2,972 students × 1,128 lecturers. Reference value by lme4 1.1-31.
 *
 * @param {string} path the data as CSV, gzip or not
 * @returns {FitTiming | null} null where the file is not there
 */
export function timeLectureEvaluations(path) {
  if (!existsSync(path)) return null;
  const table = readColumns(path);
  const model = { response: 'y', fixed: ['service'], random: ['s', 'd', 'dept*service'] };
  return timed('lecture evaluations, 3 random terms', table, model, -118830.767859871);
}

/** Generated crossed design: 200,000 rows, 20,000 × 2,000 levels. Reference value by an independent dense calculation. */
export function timeBigCrossed() {
  const model = { response: 'y', fixed: ['t'], random: ['s', 'd'] };
  return timed('generated crossed design', bigCrossedTable(), model, -333394.586142482);
}

function timed(name, table, model, reference) {
  const start = performance.now();
  const result = fitTable(table, model);
  const milliseconds = performance.now() - start;
  if (!result.converged) throw new Error(`${name}: the fit did not converge`);
  return {
    name,
    rows: result.records,
    milliseconds,
    iterations: result.iterations,
    remlLogLikelihood: result.remlLogLikelihood,
    offReference: result.remlLogLikelihood - reference,
    megabytes: process.memoryUsage().rss / 1e6,
  };
}
