import { evaluate, genetValues, halfOf80 } from '@keelrow/breeding/evaluation';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { additiveValues, ringOfCrosses } from './families.ts';
import { crossed, notesOf } from './layouts.ts';

const gardens = 20;
const years = [2030, 2031, 2032];

/** Eight families, each in a bed of its own (or four to a bed); beds differ more than genets do. */
function heldIn80(bedOf: (family: number) => number): number {
  let held = 0;
  let told = 0;
  for (let garden = 0; garden < gardens; garden++) {
    const ring = ringOfCrosses(8, 6);
    const additive = additiveValues(ring, 6, 100 + garden);
    const random = seededRandom(500 + garden);
    const seedlings = ring.map(({ genet }) => genet).filter((genet) => genet.startsWith('S'));
    const bed = (genet: string) => bedOf(Number(genet.slice(1, 2)) - 1);
    const good = new Map([0, 1, 2, 3, 4, 5, 6, 7].map((each) => [each, random.normal(0, 8)]));
    const truth = new Map(
      seedlings.map((genet) => [genet, additive.get(genet)! + random.normal(0, 3)] as const),
    );
    const rows = crossed(seedlings, years).map(([genet, year]) => ({
      genet,
      year,
      bed: `b${bed(genet)}`,
      value: 50 + truth.get(genet)! + good.get(bed(genet))! + random.normal(0, 5),
    }));
    const evaluation = evaluate(notesOf(rows), ring);
    if (!evaluation.fitted) throw new Error('not fitted');
    const average = [...truth.values()].reduce((sum, value) => sum + value) / truth.size;
    for (const { genet, total } of genetValues(evaluation)) {
      const own = truth.get(genet);
      if (own === undefined) continue;
      told++;
      if (Math.abs(own - average - total.effect) <= halfOf80 * total.se) held++;
    }
  }
  return held / told;
}

// With the beds left out these ranges held 38 % of the truths: what beds did was taken for what families are.
describe('families that each stand in one bed', () => {
  it('the 80 % ranges hold most truths where each family has a bed of its own', () => {
    expect(heldIn80((family) => family)).toBeGreaterThan(0.68);
  });

  it('and where each half of the families has', () => {
    expect(heldIn80((family) => Math.floor(family / 4))).toBeGreaterThan(0.68);
  });
});
