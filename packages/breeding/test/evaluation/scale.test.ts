import {
  comparePair,
  evaluate,
  reportEstimates,
  type TraitKind,
  type TraitNote,
} from '@keelrow/breeding/evaluation';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { crossed, genets, notesOf } from './layouts.ts';

const measured: TraitKind = { sort: 'measured', unit: 'cm' };
const counted: TraitKind = { sort: 'counted', unit: null };

function evaluated(notes: readonly TraitNote[], trait: TraitKind) {
  const evaluation = evaluate(notes, null, { trait });
  if (evaluation.fitted === null) throw new Error(evaluation.chosen.impossible ?? '');
  const report = reportEstimates(evaluation, notes, {
    trait: { code: 't', name: 'T', wanted: null, ...trait },
    genets: new Map(),
  });
  return { evaluation, report };
}

const scaleOf = (notes: readonly TraitNote[], trait: TraitKind) => evaluated(notes, trait).report.scale;

const years = [2030, 2031, 2032];

/** Notes whose values are normal on some scale: 30 genets in three years, two plants each. */
function normalOn(from: (x: number) => number, middle: number, spread: number, seed = 4): TraitNote[] {
  const random = seededRandom(seed);
  const own = new Map(genets(30).map((genet) => [genet, random.normal(0, spread)]));
  const rows = crossed(crossed(genets(30), years), [1, 2]).map(([[genet, year], k]) => ({
    genet,
    year,
    plant: `${genet}/${k}`,
    value: from(middle + own.get(genet)! + random.normal(0, spread)),
  }));
  return notesOf(rows);
}

describe('the scale of measures and counts', () => {
  it('is the logarithm for the cycles to failure of worsted yarn', () => {
    // source: Box & Cox 1964, JRSS B 26:211-252, table 4: 3 × 3 × 3 layout of length, amplitude and load (250, 300, 350 mm;
    // 8, 9, 10 mm; 40, 45, 50 g); they find λ = −0.06 and take the logarithm. Figures and result from memory.
    const cycles = [
      674, 370, 292, 338, 266, 210, 170, 118, 90, 1414, 1198, 634, 1022, 620, 438, 442, 332, 220, 3636, 3184,
      2000, 1568, 1070, 566, 1140, 884, 360,
    ];
    const rows = cycles.map((value, index) => ({
      value,
      year: 2030 + Math.floor(index / 9),
      genet: `amplitude ${Math.floor(index / 3) % 3}`,
      plant: null,
      observer: `load ${index % 3}`,
    }));
    expect(scaleOf(notesOf(rows), measured).name).toBe('logarithm');
  });

  it('is found again where values were drawn on it', () => {
    expect(
      scaleOf(
        normalOn((x) => x, 100, 20),
        measured,
      ).name,
    ).toBe('as noted');
    expect(
      scaleOf(
        normalOn((x) => x ** 2, 9, 1.5),
        measured,
      ).name,
    ).toBe('square root');
    expect(scaleOf(normalOn(Math.exp, 4, 0.4), measured)).toEqual({
      name: 'logarithm',
      words:
        'Logarithms were taken, as larger values scatter more; estimates are back in cm, with ranges wider above than below.',
    });
  });

  it('takes half a count more where some are 0, and leaves measures of 0 as noted', () => {
    const some = normalOn((x) => Math.max(0, Math.round(Math.exp(x) - 1)), 1.2, 0.8);
    expect(some.some(({ value }) => value === 0)).toBe(true);
    expect(scaleOf(some, counted).words).toMatch(/ half a count added as some are 0, /);
    expect(scaleOf(some, measured)).toEqual({
      name: 'as noted',
      words: 'Values are taken as they were noted: some are 0, which has no logarithm.',
    });
  });

  it('does not follow one slip of the decimal point', () => {
    const notes = normalOn((x) => x, 100, 10);
    const slip = notes.map((note, index) => (index === 7 ? { ...note, value: note.value * 10 } : note));
    const { report } = evaluated(slip, measured);
    expect(report.scale.name).toBe('as noted');
    expect(report.heed.join()).toMatch(/One note lies far from all others/);
    const small = notes.map((note, index) => (index === 7 ? { ...note, value: note.value / 10 } : note));
    expect(evaluated(small, measured).report.scale.name).toBe('as noted');
  });

  it('is left where it makes no difference, and where there are too few notes', () => {
    expect(
      scaleOf(
        normalOn((x) => x, 100, 5),
        measured,
      ).words,
    ).toMatch(/they differ too little/);
    expect(scaleOf(normalOn((x) => Math.exp(x), 3, 1).slice(0, 18), measured).words).toMatch(
      /too few to judge/,
    );
  });
});

describe('other traits', () => {
  it('dates are days of the year', () => {
    const notes = normalOn((x) => Math.round(x), 150, 6);
    expect(scaleOf(notes, { sort: 'staged', unit: null }).words).toBe(
      'Dates are taken as days of their year.',
    );
  });

  it('scores stay as noted, and no estimate leaves the ends', () => {
    const notes = normalOn((x) => Math.min(9, Math.max(1, Math.round(x))), 8, 2);
    const { report } = evaluated(notes, { sort: 'scored', unit: null, least: 1, most: 9 });
    expect(report.scale.name).toBe('as noted');
    expect(Math.max(...report.estimates.map(({ high }) => high))).toBe(9);
    expect(Math.min(...report.estimates.map(({ low }) => low))).toBeGreaterThanOrEqual(1);
  });

  it('percentages stay between 0 and 100, with 0 and 100 among the notes', () => {
    const share = (x: number) => Math.round(20 / (1 + Math.exp(-x))) * 5;
    const notes = normalOn(share, 2, 1.5);
    expect(notes.some(({ value }) => value === 100)).toBe(true);
    const { report } = evaluated(notes, { sort: 'measured', unit: '%' });
    expect(report.scale.name).toBe('log-odds');
    expect(report.scale.words).toMatch(/0 and 100, which have none, are taken for 2\.5 % further in/);
    for (const { low, estimate, high } of report.estimates) {
      expect(low).toBeGreaterThanOrEqual(0);
      expect(high).toBeLessThanOrEqual(100);
      expect(low).toBeLessThan(estimate);
      expect(estimate).toBeLessThan(high);
    }
  });
});

describe('figures back from a logarithm', () => {
  const notes = normalOn(Math.exp, 4, 0.4);
  const { evaluation, report } = evaluated(notes, measured);

  it('are the ends of the range on it: quantiles stay quantiles when order is kept', () => {
    const onLogs = evaluate(
      notes.map((note) => ({ ...note, value: Math.log(note.value) })),
      null,
    );
    if (onLogs.fitted === null) throw new Error('impossible');
    const plain = reportEstimates(onLogs, notes, {
      trait: { code: 't', name: 'T', sort: 'measured', unit: null, wanted: null },
      genets: new Map(),
    });
    const byId = new Map(plain.estimates.map((estimate) => [estimate.id, estimate]));
    for (const { id, estimate, low, high, effect } of report.estimates) {
      const own = byId.get(id)!;
      expect(estimate).toBeCloseTo(Math.exp(own.estimate), 6);
      expect(low).toBeCloseTo(Math.exp(own.low), 6);
      expect(high).toBeCloseTo(Math.exp(own.high), 6);
      expect(effect).toBeCloseTo(estimate - Math.exp(onLogs.level), 6);
      expect(high - estimate).toBeGreaterThan(estimate - low);
    }
  });

  it('of a pair have the difference of the estimates, and a range that holds it', () => {
    const [a, b] = [report.estimates[0]!, report.estimates.at(-1)!];
    const pair = comparePair(evaluation, a.id, b.id, 'cm');
    expect(pair.difference).toBeCloseTo(a.estimate - b.estimate, 6);
    expect(pair.low).toBeLessThan(pair.difference);
    expect(pair.high).toBeGreaterThan(pair.difference);
    expect(pair.chanceAMore).toBeGreaterThan(0.9);
    expect(pair.withMoreYears[0]!.se).toBeLessThan(pair.se);
    expect(pair.withMorePlants.map(({ plants }) => plants)).toEqual([1, 2, 3]);
    expect(pair.withMorePlants[2]!.se).toBeLessThan(pair.withMorePlants[0]!.se);
  });
});
