import type { TraitNote } from '@keelrow/breeding/evaluation';
import { describe, expect, it } from 'vitest';
import { grownTruth, simulateGarden } from '../../src/index.ts';

const { truth } = simulateGarden({ seed: 3, genets: 60 });
const genet = [...truth.genets].find(([, { recorded }]) => recorded)![0];
const bed = [...truth.beds.keys()][0]!;
const years = [...truth.seasons.keys()];
const note = (more: Partial<TraitNote>): TraitNote => ({
  note: 'n',
  value: 0,
  genet: 'g',
  plant: 'p',
  year: years[0]!,
  site: 'home',
  bed,
  age: 4,
  observer: 'MK',
  ...more,
});

describe('the true value that a brief means', () => {
  it('of lodging is the genetic one with the seasons, people and old plants of the notes', () => {
    // By hand: the scores of the second person lie 0.6 higher; plants lie over by 0.5 more from the sixth season on.
    const notes = [
      note({ age: 4, observer: 'MK' }),
      note({ age: 6, observer: 'TA', year: years[1]! }),
      note({ age: 2, observer: 'TA' }),
      note({ age: 1, observer: 'MK', year: years[1]! }),
    ];
    const season = (truth.seasons.get(years[0]!)!.lodging + truth.seasons.get(years[1]!)!.lodging) / 2;
    const expected = truth.total(genet, 'lodging') + season + 0.3 + 0.25 + 1.2 * truth.growthIn(bed).damp;
    expect(grownTruth('lodging', notes, truth)(genet)).toBeCloseTo(expected, 10);
  });

  it('of height is the genetic one times what season, bed and people make of it', () => {
    const notes = [note({ age: 4, observer: 'TA' }), note({ age: 1, observer: 'TA' })];
    const factor = truth.seasons.get(years[0]!)!.size * truth.growthIn(bed).size * 1.035;
    expect(grownTruth('height', notes, truth)(genet)).toBeCloseTo(truth.total(genet, 'height') * factor, 8);
    // A bed with no damp spot makes of its plants what its richness says, on average over its slope.
    const dry = [...truth.beds].filter(([, { damp }]) => damp === null);
    for (const [code, { richness: rich, slope }] of dry)
      expect(Math.abs(truth.growthIn(code).size / rich - 1)).toBeLessThanOrEqual(Math.abs(slope) / 2);
  });

  it('of spike length follows the size of the plant in part', () => {
    const grown = grownTruth('spike-length', [note({ age: 5 })], truth)(genet);
    const { size } = truth.seasons.get(years[0]!)!;
    const by = size * truth.growthIn(bed).size;
    expect(grown).toBeCloseTo(truth.total(genet, 'spike-length') * (0.4 + 0.6 * by), 8);
  });
});
