import { fitModel, type Model } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { additiveTerm, kinshipOf } from '../../src/pedigree/index.ts';
import { hasReference, readReference, referenceRows, tableOf } from './support/reference-files.ts';
import { entriesOf } from './support/written-rows.ts';

// source: a simulated programme of 400 genets in four generations, 48 of them selfs and 179 open-pollinated with several
// possible pollen parents; relationships by the tabular method and REML by dense matrices, both an independent program in R
// 4.2.2 (its log-likelihood checked against the whole dense V). The files lie outside the project.
const FOLDER = 'open/f_sim_perennial';

interface ExpectedModel {
  readonly id: string;
  readonly trait: string;
  readonly n_records: number;
  readonly fixed_effects: readonly { term: string; estimate: number; se: number }[];
  readonly variance_components: readonly { component: string; estimate: number; se_asymptotic: number }[];
  readonly reml: { readonly loglik: number };
}

const TERMS = { additive: 'a_additive', genet: 'c_clone', plant: 'p_ramet', residual: 'e_residual' };

describe.skipIf(!hasReference(`${FOLDER}/expected.json`))('a simulated programme', () => {
  const read = () => {
    const candidates = new Map<string, string[]>();
    for (const { genet, candidate, probability } of referenceRows(`${FOLDER}/pollen_candidates.csv`))
      candidates.set(genet!, [...(candidates.get(genet!) ?? []), `${candidate}:${probability}`]);
    const rows = referenceRows(`${FOLDER}/pedigree.csv`);
    const entries = entriesOf(
      rows.map(({ genet, mother, father }) => {
        const pollen =
          candidates.get(genet!)?.join(';') ?? (father !== '' && father === mother ? 'self' : father!);
        return [genet!, mother!, pollen];
      }),
    );
    return {
      kinship: kinshipOf(entries.reverse()),
      expected: JSON.parse(readReference(`${FOLDER}/expected.json`)),
    };
  };

  it('has the inbreeding, the determinant and the relationships of the tabular method', () => {
    const { kinship, expected } = read();
    expect(kinship.logDeterminant).toBeCloseTo(expected.relationship.logdet_A, 8);
    for (const { genet, inbreeding } of referenceRows(`${FOLDER}/inbreeding_and_provenance.csv`))
      expect(kinship.inbreeding[kinship.indexOf(genet!)!]).toBeCloseTo(Number(inbreeding), 12);
    const pairs = referenceRows(`${FOLDER}/A_sample_pairs.csv`);
    expect(pairs.length).toBeGreaterThan(500);
    for (const { genet1, genet2, A } of pairs)
      expect(kinship.relationship(genet1!, genet2!)).toBeCloseTo(Number(A), 11);
    let sum = 0;
    for (const genet of kinship.genets) sum += kinship.coancestriesWith(genet).reduce((a, b) => a + b, 0);
    expect(2 * sum).toBeCloseTo(expected.relationship.sum_A, 7);
  });

  it.each(['log_spikes', 'height_cm', 'bloom_day', 'height_cm_groups'])(
    'is fitted to the digit: %s',
    (id) => {
      const { kinship, expected } = read();
      const wanted: ExpectedModel = expected.models.find((model: ExpectedModel) => model.id === id);
      const plants = new Map(referenceRows(`${FOLDER}/plants.csv`).map((row) => [row.plant!, row]));
      const shares = new Map(
        referenceRows(`${FOLDER}/inbreeding_and_provenance.csv`).map((row) => [row.genet!, row]),
      );
      const rows = referenceRows(`${FOLDER}/notes.csv`).map((note) => {
        const { genet, bed } = plants.get(note.plant!)!;
        const { P2, P3 } = shares.get(genet!)!;
        return { ...note, genet: genet!, animal: genet!, bed: bed!, P2: P2!, P3: P3! };
      });
      const grouped = id.endsWith('groups');
      const model: Model = {
        response: wanted.trait,
        fixed: ['year', 'bed', ...(grouped ? ['P2', 'P3'] : [])],
        random: ['genet', 'plant'],
        numeric: grouped ? ['P2', 'P3'] : [],
        additive: additiveTerm(kinship, 'animal'),
      };
      const { result } = fitModel(tableOf(rows), model, { observedInformation: true });
      expect(result.records).toBe(wanted.n_records);
      expect(result.remlLogLikelihood).toBeCloseTo(wanted.reml.loglik, 7);
      for (const [term, component] of Object.entries(TERMS)) {
        const own = result.variances.find((variance) => variance.term === term)!;
        const reference = wanted.variance_components.find((variance) => variance.component === component)!;
        expect(Math.abs(own.estimate / reference.estimate - 1), term).toBeLessThan(1e-5);
        // By second derivatives of the log-likelihood, as the reference has it; average information is up to 5% off here.
        expect(Math.abs(own.se! / reference.se_asymptotic - 1), `error of ${term}`).toBeLessThan(1e-3);
      }
      for (const { term, estimate, se } of wanted.fixed_effects) {
        const own = result.fixed.find((fixed) =>
          fixed.level === null
            ? fixed.term === term.replace('(Intercept)', 'intercept')
            : fixed.term + fixed.level === term,
        )!;
        expect(Math.abs(own.estimate - estimate) / se, term).toBeLessThan(1e-5);
        expect(Math.abs(own.se / se - 1), term).toBeLessThan(1e-5);
      }
      const effects = new Map(result.effects.map((effect) => [`${effect.term} ${effect.level}`, effect]));
      const additive = referenceRows(`${FOLDER}/blup_a_${id}.csv`);
      expect(additive).toHaveLength(400);
      for (const { genet, a_blup, a_se, a_reliability } of additive) {
        const own = effects.get(`additive ${genet}`)!;
        expect(Math.abs(own.estimate - Number(a_blup)) / Number(a_se)).toBeLessThan(1e-5);
        expect(Math.abs(own.se / Number(a_se) - 1)).toBeLessThan(1e-5);
        expect(own.reliability).toBeCloseTo(Number(a_reliability), 5);
      }
      let compared = 0;
      for (const { level, c_blup, c_se } of referenceRows(`${FOLDER}/blup_c_${id}.csv`)) {
        const own = effects.get(`genet ${level}`);
        if (!own) continue; // Genets without notes have no genet effect of their own in the list.
        expect(Math.abs(own.estimate - Number(c_blup)) / Number(c_se)).toBeLessThan(1e-5);
        expect(Math.abs(own.se / Number(c_se) - 1)).toBeLessThan(1e-5);
        compared++;
      }
      expect(compared).toBeGreaterThan(300);
      for (const { plant, p_blup, p_se } of referenceRows(`${FOLDER}/blup_p_${id}.csv`)) {
        const own = effects.get(`plant ${plant}`)!;
        expect(Math.abs(own.estimate - Number(p_blup)) / Number(p_se)).toBeLessThan(1e-5);
        expect(Math.abs(own.se / Number(p_se) - 1)).toBeLessThan(1e-5);
      }
    },
  );
});
