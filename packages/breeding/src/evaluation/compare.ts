import { fitModel, normalCdf } from '@keelrow/quant';
import { type Evaluation, halfOf80, tableOf } from './estimate.ts';
import type { PairCompared } from './report.ts';
import type { TraitNote } from './trait-note.ts';

const moreYears = [1, 2, 3];

/**
 * Holds two genets against each other: the difference of their effects with its standard error, the covariance of
 * their prediction errors included (Henderson 1975), and the chance that the first truly has more.
 * a, b: ids of genets with an estimate in this evaluation.
 */
export function comparePair(evaluation: Evaluation, a: string, b: string, unit: string | null): PairCompared {
  const { estimate: difference, se } = differenceOf(evaluation.fitted, a, b);
  return {
    a,
    b,
    unit,
    difference,
    se,
    low: difference - halfOf80 * se,
    high: difference + halfOf80 * se,
    chanceAMore: se > 0 ? normalCdf(difference / se) : 0.5,
    withMoreYears: moreYears.map((years) => ({ years, se: seWithMoreYears(evaluation, a, b, years) })),
  };
}

const differenceOf = (fitted: Evaluation['fitted'], a: string, b: string) =>
  fitted.combine([
    { term: 'genet', level: a, weight: 1 },
    { term: 'genet', level: b, weight: -1 },
  ]);

/**
 * The standard error of the difference if both genets were noted in further years as they were in their last: the
 * equations solved anew with those notes added and the variances held. Errors of prediction do not depend on the
 * values noted, so the added notes carry the mean.
 */
function seWithMoreYears(evaluation: Evaluation, a: string, b: string, years: number): number {
  const { notes, chosen, fitted, model } = evaluation;
  const lastYear = Math.max(...notes.map(({ year }) => year));
  const added: TraitNote[] = [];
  for (const genet of [a, b]) {
    const own = notes.filter((note) => note.genet === genet);
    const last = Math.max(...own.map(({ year }) => year));
    const pattern = own.filter(({ year }) => year === last);
    for (let more = 1; more <= years; more++)
      added.push(...pattern.map((note) => ({ ...note, year: lastYear + more })));
  }
  const all = [...notes, ...added.map((note) => ({ ...note, value: evaluation.level }))];
  const extended = { ...chosen, columns: extendedColumns(evaluation, added) };
  const held = Object.fromEntries(fitted.result.variances.map(({ term, estimate }) => [term, estimate]));
  return differenceOf(fitModel(tableOf(all, extended), { ...model, held }), a, b).se;
}

/** Classes of the added notes: as of the note that they repeat, but for the season, which is a new one. */
function extendedColumns({ notes, chosen }: Evaluation, added: readonly TraitNote[]): Map<string, string[]> {
  const first = new Map<string, number>();
  for (const [index, { note }] of notes.entries()) if (!first.has(note)) first.set(note, index);
  return new Map(
    [...chosen.columns].map(([name, classes]) => [
      name,
      [
        ...classes,
        ...added.map((note) =>
          name === 'season' ? `further ${note.year} ${note.site ?? ''}` : classes[first.get(note.note)!]!,
        ),
      ],
    ]),
  );
}
