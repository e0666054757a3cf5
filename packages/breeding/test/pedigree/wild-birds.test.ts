import { fitModel } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { additiveTerm, kinshipOf } from '../../src/pedigree/index.ts';
import { hasReference, referenceRows, tableOf } from './support/reference-files.ts';
import { entriesOf } from './support/written-rows.ts';

// source: tarsus length and colour of the back of 828 blue tit chicks, 1,040 birds in the pedigree (Hadfield and others 2007,
// Journal of Evolutionary Biology 20:549); figures by an independent dense program in R. The data come with a GPL package,
// so they lie outside the project.
const FOLDER = 'realdata/pedigree_bluetit';

describe.skipIf(!hasReference(FOLDER))('a pedigree of wild birds', () => {
  const fitted = (response: string) => {
    const entries = entriesOf(
      referenceRows(`${FOLDER}/pedigree.csv`).map(({ animal, dam, sire }) => [animal!, dam!, sire!]),
    );
    const { result } = fitModel(tableOf(referenceRows(`${FOLDER}/records.csv`)), {
      response,
      fixed: ['sex'],
      random: ['fosternest'],
      additive: additiveTerm(kinshipOf(entries), 'animal'),
    });
    const variances = new Map(result.variances.map((variance) => [variance.term, variance]));
    return { result, variances };
  };

  it('is fitted to the digits given for the tarsus, effects of all birds included', () => {
    const { result, variances } = fitted('tarsus');
    expect(result.remlLogLikelihood).toBeCloseTo(-1037.5919, 4);
    const expected = { additive: [0.4405, 0.094], fosternest: [0.0692, 0.029], residual: [0.3477, 0.057] };
    for (const [term, [estimate, se]] of Object.entries(expected)) {
      expect(variances.get(term)!.estimate, term).toBeCloseTo(estimate!, 4);
      // Given by observed information, here by average information: the same but for a few per cent.
      expect(variances.get(term)!.se! / se!, term).toBeGreaterThan(0.9);
      expect(variances.get(term)!.se! / se!, term).toBeLessThan(1.1);
    }
    const sexes = new Map(result.fixed.map(({ level, estimate, se }) => [level, { estimate, se }]));
    expect(sexes.get('Male')!.estimate).toBeCloseTo(0.7688, 4);
    expect(sexes.get('Male')!.se).toBeCloseTo(0.0571, 4);
    expect(sexes.get('UNK')!.estimate).toBeCloseTo(0.2104, 4);
    expect(sexes.get('UNK')!.se).toBeCloseTo(0.1267, 4);
    const effects = new Map(
      result.effects
        .filter(({ term }) => term === 'additive')
        .map(({ level, estimate }) => [level, estimate] as const),
    );
    const published = referenceRows(`${FOLDER}/expected_tarsus_blup.csv`);
    expect(published).toHaveLength(1040);
    for (const { animal, ebv } of published) expect(effects.get(animal!)).toBeCloseTo(Number(ebv), 4);
  });

  it('is fitted to the digits given for the back', () => {
    const { result, variances } = fitted('back');
    expect(result.remlLogLikelihood).toBeCloseTo(-1147.9022, 4);
    for (const [term, estimate] of [
      ['additive', 0.1347],
      ['fosternest', 0.1205],
      ['residual', 0.7385],
    ] as const)
      expect(variances.get(term)!.estimate, term).toBeCloseTo(estimate, 4);
  });
});
