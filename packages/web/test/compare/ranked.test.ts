import type { EstimatesReport, GenetEstimate } from '@keelrow/server/contract';
import { describe, expect, test } from 'vitest';
import { rankedBy } from '../../src/compare/ranked.ts';
import { traitWriting } from '../../src/compare/trait-shown.ts';

const genet = (code: string, given: Partial<GenetEstimate>): GenetEstimate => ({
  id: code,
  code,
  name: null,
  standard: false,
  estimate: 30,
  effect: 0,
  se: 2,
  seInDoubt: 2,
  low: 28,
  high: 33,
  breeding: { effect: 0, se: 1, seInDoubt: 1, low: -1, high: 1, reliability: 0.4 },
  inbreeding: 0,
  notes: 3,
  years: 1,
  plants: 1,
  slips: 0,
  mean: 31,
  reliability: 0.6,
  ...given,
});
const parent = (effect: number): GenetEstimate['breeding'] => ({
  effect,
  se: 1,
  seInDoubt: 1,
  low: effect - 1,
  high: effect + 1,
  reliability: 0.5,
});

const report = (wanted: string | null, estimates: readonly GenetEstimate[]): EstimatesReport => ({
  trait: { code: 't', name: 'Spike length', sort: 'measured', unit: 'cm', wanted },
  notes: 9,
  genets: 3,
  years: [2026],
  tookIntoAccount: [],
  couldNotSeparate: [],
  heed: [],
  scale: { name: 'as noted', words: '' },
  kinship: { used: true, words: [], gamma: null },
  heritability: null,
  repeatability: null,
  accuracy: null,
  variances: [],
  estimates,
});
const writing = traitWriting({ sort: 'measured', unit: 'cm' }, 'metric');
const codes = (rows: readonly { estimate: GenetEstimate }[]): string[] =>
  rows.map(({ estimate }) => estimate.code);

describe('the ranking', () => {
  const all = [
    genet('A', { estimate: 40, breeding: parent(1) }),
    genet('B', { estimate: 38, notes: 0, breeding: parent(9) }),
    genet('C', { estimate: 35, breeding: parent(5) }),
    genet('D', { estimate: 34, breeding: null }),
  ];
  test('keeps the order of the report and leaves genets without notes out unless they are asked for', () => {
    expect(codes(rankedBy(report('more', all), writing, 'itself', false))).toEqual(['A', 'C', 'D']);
    expect(codes(rankedBy(report('more', all), writing, 'itself', true))).toEqual(['A', 'B', 'C', 'D']);
  });
  test('counts ranks among those that are shown', () => {
    expect(rankedBy(report('more', all), writing, 'itself', false).map(({ rank }) => rank)).toEqual([
      1, 2, 3,
    ]);
  });
  test('as parents goes by what is handed on, leaving out who has no such value', () => {
    expect(codes(rankedBy(report('more', all), writing, 'parent', true))).toEqual(['B', 'C', 'A']);
  });
  test('as parents puts the smallest first where less is wanted', () => {
    expect(codes(rankedBy(report('less', all), writing, 'parent', true))).toEqual(['A', 'C', 'B']);
  });
  test('as parents draws the distance from the average, without a plain mean', () => {
    const [first] = rankedBy(report('more', all), writing, 'parent', true);
    expect(first).toMatchObject({ value: 9, low: 8, high: 10, mean: null, reliability: 0.5 });
  });
  test('in inches, distances lose no zero point', () => {
    const us = traitWriting({ sort: 'measured', unit: '°C' }, 'us');
    const [first] = rankedBy(report('more', all), us, 'parent', true);
    // source: 1 °C is 1.8 °F as a difference (NIST Special Publication 811, appendix B.8).
    expect(first!.value).toBeCloseTo(16.2, 9);
  });
});
