import { evaluate, genetValues, type TraitNote } from '@keelrow/breeding/evaluation';
import type { PedigreeEntry } from '@keelrow/breeding/pedigree';
import { describe, expect, it } from 'vitest';
import { hasReference, referenceRows } from '../pedigree/support/reference-files.ts';
import { founder } from './families.ts';

const plain: Omit<TraitNote, 'note' | 'value' | 'genet'> = {
  plant: null,
  year: 2030,
  site: 'home',
  bed: null,
  age: null,
  observer: null,
};

/** Variances and log-likelihood of the model that is chosen for these notes. */
function fitted(notes: readonly TraitNote[], pedigree: readonly PedigreeEntry[] | null = null) {
  const evaluation = evaluate(notes, pedigree);
  if (evaluation.fitted === null) throw new Error(evaluation.chosen.impossible ?? '');
  const { result } = evaluation.fitted;
  return {
    evaluation,
    variances: Object.fromEntries(result.variances.map(({ term, estimate }) => [term, estimate])),
    logLikelihood: result.remlLogLikelihood,
  };
}

const birds = 'realdata/pedigree_bluetit';

describe.skipIf(!hasReference(`${birds}/records.csv`))('wild birds, one note on each', () => {
  // source: the set's README: own dense REML in R of tarsus ~ sex + nest + additive, checked against lme4 without pedigree.
  it('are estimated by their kin: nest as bed, sex as a class', () => {
    const pedigree = referenceRows(`${birds}/pedigree.csv`).map(({ animal, dam, sire }) => ({
      ...founder(animal!),
      seedParents: dam ? [{ genet: dam, chance: 1 }] : [],
      pollenParents: sire ? [{ genet: sire, chance: 1 }] : [],
    }));
    const notes = referenceRows(`${birds}/records.csv`).map(({ animal, tarsus, fosternest, sex }, index) => ({
      ...plain,
      note: String(index),
      genet: animal!,
      plant: animal!,
      value: Number(tarsus),
      bed: fosternest!,
      observer: sex!,
    }));
    const { evaluation, variances, logLikelihood } = fitted(notes, pedigree);
    expect(evaluation.model.random).toEqual(['bed']);
    expect(variances.additive).toBeCloseTo(0.4405, 4);
    expect(variances.bed).toBeCloseTo(0.0692, 4);
    expect(variances.residual).toBeCloseTo(0.3477, 4);
    expect(logLikelihood).toBeCloseTo(-1037.5919, 3);
    // Listed estimates are differences from the average noted bird.
    const expected = new Map(
      referenceRows(`${birds}/expected_tarsus_blup.csv`).map(({ animal, ebv }) => [animal!, Number(ebv)]),
    );
    const noted = new Set(notes.map(({ genet }) => genet));
    const mean = [...noted].reduce((sum, bird) => sum + expected.get(bird)!, 0) / noted.size;
    let compared = 0;
    for (const { genet, additive } of genetValues(evaluation)) {
      if (!expected.has(genet)) continue;
      expect(additive!.effect).toBeCloseTo(expected.get(genet)! - mean, 3);
      compared++;
    }
    expect(compared).toBeGreaterThan(800);
  });
});

const barley = 'realdata/trial_durban_rowcol_spatial/data.csv';

describe.skipIf(!hasReference(barley))('a trial of barley in rows and columns', () => {
  // source: the set's README (lme4): variety, row and column random, replicate fixed.
  it('takes rows and columns from the places of the plots', () => {
    const notes = referenceRows(barley).map(({ gen, row, col, rep, yield: value }, index) => ({
      ...plain,
      note: String(index),
      genet: gen!,
      value: Number(value),
      observer: rep!,
      east: Number(col),
      north: Number(row),
    }));
    const { variances, logLikelihood } = fitted(notes);
    expect(variances.genet).toBeCloseTo(0.06966, 4);
    expect(variances.column).toBeCloseTo(0.04663, 4);
    expect(variances.row).toBeCloseTo(0.03107, 4);
    expect(variances.residual).toBeCloseTo(0.0719, 4);
    expect(logLikelihood).toBeCloseTo(-258.0129, 3);
  });
});

const strawberries = 'realdata/trial_strawberry_rcb/data.csv';

describe.skipIf(!hasReference(strawberries))('a small trial of strawberries in blocks', () => {
  // source: the set's README: block F 6.241 (3, 21), variety F 3.686 (7, 21), residual mean square 1.1304. For a balanced
  // layout REML equals the analysis of variance (Searle, Casella & McCulloch 1992, section 4.4).
  it('gives the variances of its analysis of variance', () => {
    const notes = referenceRows(strawberries).map(({ gen, block, yield: value }, index) => ({
      ...plain,
      note: String(index),
      genet: gen!,
      value: Number(value),
      bed: block!,
    }));
    const { variances } = fitted(notes);
    expect(variances.residual).toBeCloseTo(1.1304, 4);
    expect(variances.genet).toBeCloseTo(((3.686 - 1) * 1.1304) / 4, 3);
    expect(variances.bed).toBeCloseTo(((6.241 - 1) * 1.1304) / 8, 3);
  });
});

const programme = 'open/f_sim_perennial';

describe.skipIf(!hasReference(`${programme}/expected.json`))('a simulated programme', () => {
  // source: simulated by the reference's own script, with its truth: 400 genets of four generations, possible pollen parents.
  const plants = new Map(
    (hasReference(`${programme}/plants.csv`) ? referenceRows(`${programme}/plants.csv`) : []).map((row) => [
      row.plant!,
      row,
    ]),
  );
  const pedigree = () => {
    const possible = new Map<string, { genet: string; chance: number }[]>();
    for (const { genet, candidate, probability } of referenceRows(`${programme}/pollen_candidates.csv`))
      possible.set(genet!, [
        ...(possible.get(genet!) ?? []),
        { genet: candidate!, chance: Number(probability) },
      ]);
    return referenceRows(`${programme}/pedigree.csv`).map(({ genet, mother, father }) => ({
      ...founder(genet!),
      seedParents: mother ? [{ genet: mother, chance: 1 }] : [],
      pollenParents: possible.get(genet!) ?? (father ? [{ genet: father, chance: 1 }] : []),
    }));
  };
  const notesOf = (trait: string) =>
    referenceRows(`${programme}/notes.csv`)
      .filter((row) => row[trait])
      .map((row, index) => ({
        ...plain,
        note: String(index),
        value: Number(row[trait]),
        genet: plants.get(row.plant!)!.genet!,
        plant: row.plant!,
        year: Number(row.year),
        bed: plants.get(row.plant!)!.bed!,
      }));

  it.each(['log_spikes', 'height_cm', 'bloom_day'])('%s: is estimated as by the reference', (trait) => {
    const { evaluation } = fitted(notesOf(trait), pedigree());
    // The reference takes the four beds as fixed, we draw them towards their average: all but the same.
    const expected = referenceRows(`${programme}/blup_a_${trait}.csv`);
    const values = new Map(genetValues(evaluation).map((value) => [value.genet, value.additive!]));
    const pairs = expected.map((row) => [Number(row.a_blup), values.get(row.genet!)!.effect] as const);
    const mean = (of: 0 | 1) => pairs.reduce((sum, pair) => sum + pair[of], 0) / pairs.length;
    const [meanA, meanB] = [mean(0), mean(1)];
    const sum = (f: (a: number, b: number) => number) =>
      pairs.reduce((total, [a, b]) => total + f(a - meanA, b - meanB), 0);
    const [product, a2, b2] = [sum((a, b) => a * b), sum((a) => a * a), sum((_, b) => b * b)];
    expect(product / Math.sqrt(a2 * b2)).toBeGreaterThan(0.999);
    expect(product / a2).toBeGreaterThan(0.97);
    expect(product / a2).toBeLessThan(1.03);
  });
});
