import {
  type EstimatesReport,
  evaluate,
  reportEstimates,
  type TraitNote,
  traitModel,
} from '@keelrow/breeding/evaluation';
import type { Units } from '@keelrow/breeding/facts';
import { describe, expect, it } from 'vitest';
import { inSpreads } from '../../src/evaluation/report/far-notes.ts';
import { crossed, genets, notesOf } from './layouts.ts';

const measured: EstimatesReport['trait'] = {
  code: 'height',
  name: 'Height',
  sort: 'measured',
  unit: 'cm',
  wanted: null,
};

function reported(
  notes: readonly TraitNote[],
  trait: Partial<EstimatesReport['trait']> = {},
  units: Units = 'metric',
): EstimatesReport {
  return reportEstimates(evaluate(notes), notes, {
    trait: { ...measured, ...trait },
    units,
    genets: new Map(genets(20).map((id) => [id, { code: `2030-${id}`, name: null, standard: id === 'G1' }])),
  });
}

const years = [2030, 2031, 2032];
const trial = notesOf(
  crossed(genets(20), years).map(([genet, year]) => ({ genet, year })),
  3,
);
const changed = (index: number, value: number) =>
  trial.map((note, at) => (at === index ? { ...note, value } : note));

describe('a ranking', () => {
  it('puts more first, and less first where less is wanted', () => {
    const values = (wanted: string | null) =>
      reported(trial, { wanted }).estimates.map(({ estimate }) => estimate);
    expect(values('more')).toEqual(values(null));
    expect(values(null)).toEqual(values(null).toSorted((a, b) => b - a));
    expect(values('less')).toEqual(values(null).toReversed());
  });

  it('carries code, standard, number of notes, years and plants, and the plain mean', () => {
    const own = reported(trial).estimates.find(({ id }) => id === 'G1')!;
    const values = trial.filter(({ genet }) => genet === 'G1').map(({ value }) => value);
    expect(own).toMatchObject({ code: '2030-G1', standard: true, notes: 3, years: 3, plants: 1 });
    expect(own.mean).toBeCloseTo((values[0]! + values[1]! + values[2]!) / 3, 10);
  });

  it('stands on the trait’s scale: with all genets noted alike, estimates average to the mean of the notes', () => {
    const { estimates } = reported(trial);
    const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;
    expect(mean(estimates.map(({ estimate }) => estimate))).toBeCloseTo(
      mean(trial.map(({ value }) => value)),
      6,
    );
  });

  it('says why where there is nothing to rank', () => {
    const { estimates, couldNotSeparate, repeatability } = reported([]);
    expect({ estimates, couldNotSeparate, repeatability }).toEqual({
      estimates: [],
      couldNotSeparate: ['There are no notes of this trait on plants or genets yet.'],
      repeatability: null,
    });
  });

  it('gives the repeatability of a balanced trial as by the analysis of variance', () => {
    // source: Searle, Casella & McCulloch 1992, section 4.4: for balanced two-way data REML equals the analysis of
    // variance; between genets (MSG − MSE)/years, between notes MSE.
    const mean = (list: readonly TraitNote[]) =>
      list.reduce((sum, { value }) => sum + value, 0) / list.length;
    const all = mean(trial);
    const ofGenet = (id: string) => mean(trial.filter(({ genet }) => genet === id)) - all;
    const ofYear = (of: number) => mean(trial.filter(({ year }) => year === of)) - all;
    const between = (3 * genets(20).reduce((sum, id) => sum + ofGenet(id) ** 2, 0)) / 19;
    const within =
      trial.reduce(
        (sum, { value, genet, year }) => sum + (value - all - ofGenet(genet) - ofYear(year)) ** 2,
        0,
      ) /
      (19 * 2);
    const genet = (between - within) / 3;
    expect(reported(trial).repeatability!.value).toBeCloseTo(genet / (genet + within), 5);
  });
});

describe('notes that lie far from all others', () => {
  const farWords = (report: EstimatesReport) =>
    report.heed.filter((words) => words.includes('far from all others'));
  const flaggedIn = (notes: readonly TraitNote[]) =>
    traitModel(evaluate(notes), reported(notes), { trait: measured, genets: new Map() }).residuals.flatMap(
      ({ flagged }, row) => (flagged ? [row] : []),
    );

  it('are named with value, unit, genet and year', () => {
    // A decimal point slipped: ten times too much, on the second genet in its first year.
    const slip = Math.round(10 * trial[3]!.value);
    expect(farWords(reported(changed(3, slip)))).toEqual([
      expect.stringMatching(
        new RegExp(`^One note lies far .*: ${slip} cm on 2030-G2 in 2030\\. Look at it again`),
      ),
    ]);
    expect(farWords(reported(trial))).toEqual([]);
    const slips = reported(changed(3, slip)).estimates.filter((estimate) => estimate.slips > 0);
    expect(slips.map(({ code, slips }) => [code, slips])).toEqual([['2030-G2', 1]]);
  });

  it('do not draw right notes beside them along', () => {
    // A slip put in by hand is the only wrong note; it makes the note after it on its genet look far off too.
    const many = notesOf(
      crossed(genets(100), years).map(([genet, year]) => ({ genet, year })),
      3,
    ).map((note, at) => (at === 3 ? { ...note, value: note.value / 10 } : note));
    const evaluation = evaluate(many);
    if (evaluation.fitted === null) throw new Error('cannot be fitted');
    const atOnce = inSpreads([...evaluation.fitted.fittedRows().standardised]);
    expect([...atOnce.keys()].filter((row) => atOnce[row]! > 6)).toEqual([3, 4]);
    expect(flaggedIn(many)).toEqual([3]);
  });

  it('are found though one genet has two of them, and another a third', () => {
    const slips = [4, 5, 30];
    expect(
      flaggedIn(trial.map((note, at) => (slips.includes(at) ? { ...note, value: 10 * note.value } : note))),
    ).toEqual(slips);
  });

  it('are found on a genet that has no other note', () => {
    const lonely = [...trial, { ...trial[0]!, note: 'x', genet: 'new', plant: 'new/1', value: 500 }];
    expect(farWords(reported(lonely))[0]).toMatch(/500 cm on new in 2030/);
  });

  it('are told in the units of the programme', () => {
    const notes = changed(3, 508);
    // 508 cm are 200 in: 1 in is 2.54 cm exactly (international yard and pound, 1959).
    const { heed, estimates } = reported(notes, {}, 'us');
    expect(heed.join()).toMatch(/200 in on 2030-G2 in 2030/);
    expect(estimates).toEqual(reported(notes).estimates);
  });

  it('are dates where the trait is a date', () => {
    const dated = trial.map((note) => ({ ...note, value: Math.round(note.value + 100) }));
    const slip = dated.map((note, at) => (at === 4 ? { ...note, value: 310 } : note));
    // Day 310 of a year without a leap day is 6 November (from memory, any calendar).
    expect(farWords(reported(slip, { sort: 'staged', unit: null }))[0]).toMatch(/2031-11-06 on 2030-G2/);
  });
});
