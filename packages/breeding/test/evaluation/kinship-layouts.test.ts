import { chooseModel, evaluate, reportEstimates, type TraitNote } from '@keelrow/breeding/evaluation';
import type { PedigreeEntry } from '@keelrow/breeding/pedigree';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { additiveValues, child, founder, ringOfCrosses } from './families.ts';
import { crossed, genets, notesOf } from './layouts.ts';

const years = [2030, 2031, 2032];
const shown = {
  trait: { code: 't', name: 'T', sort: 'measured', unit: 'cm', wanted: null },
  genets: new Map(),
} as const;

/** Terms as chosen and as fitted, and what is said of kinship. */
function layout(notes: readonly TraitNote[], pedigree: readonly PedigreeEntry[] | null) {
  const evaluation = evaluate(notes, pedigree);
  const { chosen } = evaluation;
  return {
    fixed: evaluation.fitted ? evaluation.model.fixed : [],
    random: evaluation.fitted ? evaluation.model.random : [],
    byKin: evaluation.fitted !== null && evaluation.model.additive !== undefined,
    took: chosen.tookIntoAccount,
    could: chosen.couldNotSeparate,
    kinship: chosen.kinship.words,
    gamma: evaluation.fitted ? (evaluation.kin?.gamma ?? null) : null,
    why: (term: string) => chosen.considered.find((one) => one.term === term),
    report: reportEstimates(evaluation, notes, shown),
  };
}

const ring = ringOfCrosses(6, 6);
const seedlings = ring.map(({ genet }) => genet).filter((genet) => genet.startsWith('S'));
const truth = additiveValues(ring, 8);
const withTruth = (notes: readonly TraitNote[]) =>
  notes.map((note) => ({ ...note, value: note.value + truth.get(note.genet)! }));

describe('layouts with kinship', () => {
  it('1: families over several years: what is handed on enters beside the genet', () => {
    const { random, byKin, took, could } = layout(
      withTruth(notesOf(crossed(seedlings, years).map(([genet, year]) => ({ genet, year })))),
      ring,
    );
    expect({ random, byKin }).toEqual({ random: ['genet'], byKin: true });
    expect(took[0]).toBe(
      'parents, sibs, seedlings and clones (36 noted genets of 6 families have such kin among the noted)',
    );
    expect(could.join()).not.toMatch(/kin/);
  });

  it('2: one note on each seedling is enough where families tell', () => {
    const { random, byKin, could } = layout(withTruth(notesOf(seedlings.map((genet) => ({ genet })))), ring);
    expect({ random, byKin }).toEqual({ random: [], byKin: true });
    expect(could[0]).toMatch(
      /^Each genet has a single note, so what a genet is beyond what its kin share cannot be told from chance/,
    );
  });

  it('3: one note on each, and no kin: impossible, as without pedigree', () => {
    const { byKin, could, report } = layout(
      notesOf(genets(30).map((genet) => ({ genet }))),
      genets(30).map((genet) => founder(genet)),
    );
    expect(byKin).toBe(false);
    expect(could).toHaveLength(1);
    expect(could[0]).toMatch(/^Every genet has a single note/);
    expect(report.estimates).toEqual([]);
  });

  it('4: no parents known: each by its own notes, and that is said', () => {
    const { random, byKin, kinship, report } = layout(
      notesOf(crossed(genets(12), years).map(([genet, year]) => ({ genet, year }))),
      genets(12).map((genet) => founder(genet)),
    );
    expect({ random, byKin }).toEqual({ random: ['genet'], byKin: false });
    expect(kinship).toEqual([
      'No parents of the noted genets are known, so each is judged by its own notes alone.',
    ]);
    expect(report.kinship).toEqual({ used: false, words: kinship, gamma: null });
    expect(report.heritability).toBeNull();
  });

  it('5: a few kin only', () => {
    const pedigree = [...genets(12).map((genet) => founder(genet)), child('K1', 'G1', 'G2')];
    const { byKin, kinship } = layout(
      notesOf(crossed([...genets(12), 'K1'], years).map(([genet, year]) => ({ genet, year }))),
      pedigree,
    );
    expect(byKin).toBe(false);
    expect(kinship[0]).toBe(
      'Only 3 of the 13 noted genets have a parent, sib, seedling or clone among the others: too few to tell what kin share, so each genet is judged by its own notes alone.',
    );
  });

  it('6: one family of full sibs: sibs are all alike in kinship', () => {
    const family = genets(15).map((genet) => child(genet, 'A', 'B'));
    const { byKin, kinship } = layout(
      notesOf(crossed(genets(15), years).map(([genet, year]) => ({ genet, year }))),
      [founder('A'), founder('B'), ...family],
    );
    expect(byKin).toBe(false);
    expect(kinship[0]).toMatch(/^All 15 noted genets have a parent, sib, .* of 1 family only: too few/);
    expect(kinship[0]).toMatch(/they are of 1 family only: too few to tell what kin share/);
  });

  it('7: each family in a bed of its own: the beds enter, and what cannot be compared for it is said', () => {
    const notes = withTruth(
      notesOf(
        crossed(seedlings, years).map(([genet, year]) => ({ genet, year, bed: `b${genet.slice(1, 2)}` })),
      ),
    );
    const { random, could, took } = layout(notes, ring);
    expect(random).toContain('bed');
    expect(took).toContain(
      'the bed (6 beds; by how much genets of one bed are more alike than genets of different beds)',
    );
    expect(could).toContain(
      'Each family stands in a bed of its own, so a good bed can hardly be told from a good family: genets of one bed are well compared, those of different beds are not, and their ranges are wide for it. Plant a standard in each bed, or sibs in several.',
    );
  });

  it('8: sibs in several beds tell the beds, though no genet stands in two', () => {
    const notes = withTruth(
      notesOf(
        crossed(seedlings, years).map(([genet, year]) => ({ genet, year, bed: `b${genet.slice(-1)}` })),
      ),
    );
    const { random, took } = layout(notes, ring);
    expect(random).toContain('bed');
    expect(took).toContain('the bed (6 beds; sibs of 6 families stand in more than one)');
    // Without kinship nothing ties them.
    expect(chooseModel(notes).tookIntoAccount).toContain(
      'the bed (6 beds; by how much genets of one bed are more alike than genets of different beds)',
    );
  });

  it('9: two taxa and their hybrids: founders of one taxon are taken as kin, as the notes tell', () => {
    const { entries, notes } = twoTaxa();
    const { gamma, kinship, byKin } = layout(notes, entries);
    expect(byKin).toBe(true);
    // Each taxon is all but fixed for its own value: γ near 2.
    expect(gamma).toBeGreaterThanOrEqual(1.5);
    expect(kinship[1]).toMatch(/^Founders of one taxon or provenance .* as the 2 founder groups and their/);
  });

  it('10: two taxa without hybrids: the usual kinship of founders, and why', () => {
    const { entries, notes } = twoTaxa();
    const pure = entries.filter(({ genet }) => !genet.startsWith('F'));
    const kept = new Set(pure.map(({ genet }) => genet));
    const { gamma, kinship } = layout(
      notes.filter(({ genet }) => kept.has(genet)),
      pure,
    );
    expect(gamma).toBe(1);
    expect(kinship[1]).toMatch(/the usual value, as 0 noted genets stem from more than one of the 2 founder/);
  });

  it('11: selfs beside crosses: inbreeding depression enters where it shows, and only then', () => {
    const selfs = ring
      .filter(({ genet }) => genet.startsWith('P'))
      .flatMap(({ genet }) => [1, 2, 3, 4].map((k) => child(`I${genet.slice(1)}-${k}`, genet, genet)));
    const pedigree = [...ring, ...selfs];
    const values = additiveValues(pedigree, 6);
    const notesWith = (depression: number) =>
      notesOf(
        crossed(
          pedigree.map(({ genet }) => genet),
          years,
        ).map(([genet, year]) => ({ genet, year })),
        5,
      ).map((note) => ({
        ...note,
        value: note.value + values.get(note.genet)! - (note.genet.startsWith('I') ? depression / 2 : 0),
      }));
    const sunk = layout(notesWith(40), pedigree);
    expect(sunk.fixed).toContain('inbreeding');
    expect(sunk.report.heed.find((words) => words.startsWith('Inbred genets have less'))).toMatch(
      /: [34]\.\d+ ± [\d.]+ cm for each 0\.1 of inbreeding\.$/,
    );
    const even = layout(notesWith(0), pedigree);
    expect(even.fixed).not.toContain('inbreeding');
    expect(even.why('inbreeding')).toMatchObject({
      entered: false,
      why: 'Tried and left out: the notes are no likelier with it than chance would have it.',
    });
  });

  it('12: genets that take shade differently, in beds of both', () => {
    const random = seededRandom(8);
    const liking = new Map(seedlings.map((genet) => [genet, random.normal(0, 8)]));
    // Two plants in each light: with one, what light does to a genet could not be told from the luck of the plant.
    const rows = crossed(crossed(crossed(seedlings, years), ['full sun', 'shade']), [1, 2]).map(
      ([[[genet, year], light], k]) => ({ genet, year, light, plant: `${genet} ${k} in ${light}` }),
    );
    const notes = withTruth(notesOf(rows)).map((note) => ({
      ...note,
      value: note.value + (note.light === 'shade' ? liking.get(note.genet)! : -liking.get(note.genet)!),
    }));
    const { random: terms, took } = layout(notes, ring);
    expect(terms).toContain('genet*light');
    expect(took.at(-1)).toBe('that genets take light differently (36 genets stand in several kinds of it)');
  });
});

/** Two taxa with quite different values, each uniform; their hybrids, and a second generation that scatters. */
function twoTaxa(): { entries: PedigreeEntry[]; notes: TraitNote[] } {
  const random = seededRandom(21);
  const wild = ['A', 'B'].flatMap((taxon) =>
    Array.from({ length: 8 }, (_, k) => founder(`${taxon}${k + 1}`, taxon)),
  );
  const first = Array.from({ length: 10 }, (_, k) =>
    child(`F1-${k + 1}`, `A${(k % 8) + 1}`, `B${(k % 8) + 1}`),
  );
  const second = Array.from({ length: 60 }, (_, k) =>
    child(`F2-${k + 1}`, `F1-${(k % 10) + 1}`, `F1-${((k + 3) % 10) + 1}`),
  );
  // Within a taxon, as uniform as it is.
  const within = ['A', 'B'].flatMap((taxon) =>
    Array.from({ length: 12 }, (_, k) =>
      child(`${taxon}x${k + 1}`, `${taxon}${(k % 4) + 1}`, `${taxon}${(k % 4) + 5}`),
    ),
  );
  const entries = [...wild, ...within, ...first, ...second];
  const level = (genet: string) => {
    if (genet.startsWith('A')) return 60;
    if (genet.startsWith('B')) return 90;
    // A second generation between two fixed taxa: twenty genes of equal effect, each drawn anew (Mather & Jinks 1982).
    return genet.startsWith('F1') ? 75 : 75 + (15 / 20) * (2 * (random.binomial(40, 0.5) - 20));
  };
  const values = new Map(entries.map(({ genet }) => [genet, level(genet)]));
  const rows = crossed(
    entries.map(({ genet }) => genet),
    years,
  ).map(([genet, year]) => ({ genet, year, value: values.get(genet)! + random.normal(0, 2) }));
  return { entries, notes: notesOf(rows) };
}
