import type { Evaluation, NoEvaluation } from '../evaluation.ts';
import type { EstimatesReport, TraitModel } from '../report.ts';
import { noteDistances } from './far-notes.ts';
import type { Shown } from './shown-beside.ts';

/** What the page of a trait shows: its model, term by term, and each note beside what the model makes of it. */
export function traitModel(
  evaluation: Evaluation | NoEvaluation,
  { estimates: _, ...report }: EstimatesReport,
  { genets }: Shown,
): TraitModel {
  const terms = evaluation.chosen.considered;
  if (evaluation.fitted === null) return { report, terms, residuals: [] };
  const { notes } = evaluation;
  return {
    report,
    terms,
    residuals: noteDistances(evaluation).map(({ row, fitted, standardised, flagged }) => {
      const { note, genet, plant, bed, year, value, east = null, north = null } = notes[row]!;
      const code = genets.get(genet)?.code ?? genet;
      return { note, genet, code, plant, bed, year, east, north, value, fitted, standardised, flagged };
    }),
  };
}
