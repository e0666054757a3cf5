import { describe, expect, it } from 'vitest';
import { relationshipTable } from '../../src/model-world/tabular-relationship.ts';

describe('Mendelian shares by the tabular method', () => {
  it('are those of handbooks for unrelated founders, selfs and full sibs', () => {
    // source: Falconer & Mackay 1996, chapter 5: F of the first four selfed generations 0, 1/2, 3/4, 7/8 and of full sibs 1/4;
    // the Mendelian variance is 1/2 (1 - mean F of the parents).
    const table = relationshipTable(0);
    const [a, b] = [table.addFounder(null), table.addFounder(null)];
    const first = table.addSeedling(a, b);
    const sib = table.addSeedling(a, b);
    const selfs = [table.addSeedling(first, first)];
    for (let more = 0; more < 3; more++) selfs.push(table.addSeedling(selfs.at(-1)!, selfs.at(-1)!));
    const ofSibs = table.addSeedling(first, sib);
    const afterSibs = table.addSeedling(ofSibs, ofSibs);
    expect([a, first, sib, ...selfs, ofSibs, afterSibs].map(table.mendelian)).toEqual([
      1,
      1 / 2,
      1 / 2,
      1 / 2,
      1 / 4,
      1 / 8,
      1 / 16,
      1 / 2,
      3 / 8,
    ]);
  });

  it('leave crosses of two nearly fixed groups uniform and let their offspring scatter', () => {
    // source: Legarra and others 2015, own relationship of a founder 1 + γ/2; by hand for γ → 2: m of the F1 ½ − γ/4 → 0, of
    // the F2 1 − ½(1 + ½ × 0) = ½.
    const gamma = 1.9;
    const table = relationshipTable(gamma);
    const [a, a2, b] = [table.addFounder(0), table.addFounder(0), table.addFounder(1)];
    const [cross, within] = [table.addSeedling(a, b), table.addSeedling(a, a2)];
    const second = table.addSeedling(cross, cross);
    expect(table.mendelian(a)).toBeCloseTo(0.05, 12);
    expect(table.mendelian(cross)).toBeCloseTo(0.025, 12);
    expect(table.mendelian(within)).toBeCloseTo(0.025, 12);
    expect(table.mendelian(second)).toBeCloseTo(0.5, 12);
  });
});
