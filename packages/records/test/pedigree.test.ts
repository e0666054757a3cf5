import { kinshipOf } from '@keelrow/breeding/pedigree';
import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import { act, add, change, type Programme, readPedigree } from '../src/index.ts';

const by = { person: null, device: null, via: 'browser' as const };

/** Two species, wild plants of two provenances, a cross between them, selfs, guessed parents and a sport. */
const plantFamily = (programme: Programme) =>
  act(programme, by, async (doing) => {
    await add(doing, 'taxa', [{ name: 'Lupinus polyphyllus' }, { name: 'Lupinus arboreus' }]);
    await add(doing, 'localities', [{ code: 'L1', provenance: 'northern uplands' }, { code: 'L2' }]);
    await add(doing, 'accessions', [
      { code: 'A1', taxon: 'Lupinus polyphyllus', locality: 'L1' },
      { code: 'A2', taxon: 'Lupinus arboreus', locality: 'L2' },
    ]);
    const first = await add(doing, 'genets', [
      { code: 'north', accession: 'A1' },
      { code: 'shore', accession: 'A2' },
      { code: 'named', accession: 'A1', founder_group: 'old garden' },
      { code: 'stray' },
    ]);
    await add(doing, 'crosses', [
      {
        code: 'X1',
        seed_parent: [{ genet: 'north', chance: 1 }],
        pollen_parent: [{ genet: 'shore', chance: 1 }],
      },
    ]);
    const second = await add(doing, 'genets', [
      { code: 'f1', cross: 'X1' },
      {
        code: 'mended',
        cross: 'X1',
        seed_parent: [{ genet: 'north', chance: 1 }],
        pollen_parent: [
          { genet: 'named', chance: 0.5 },
          { genet: 'self', chance: 0.2 },
        ],
      },
      { code: 'sport', clone_of: 'f1' },
    ]);
    return [...first, ...second];
  });

/** The pedigree by codes instead of ids. */
async function pedigreeByCode(programme: Programme) {
  const rows = await programme.read.selectFrom('genets').select(['id', 'code']).execute();
  const code = new Map<string, string>([
    ...rows.map((row): [string, string] => [row.id, row.code]),
    ['self', 'self'],
  ]);
  const entries = await readPedigree(programme.read);
  const named = (parents: (typeof entries)[number]['seedParents']) =>
    parents.map(({ genet, chance }) => `${code.get(genet)}:${chance}`).join(';');
  return Object.fromEntries(
    entries.map((entry) => [
      code.get(entry.genet),
      [
        named(entry.seedParents),
        named(entry.pollenParents),
        entry.cloneOf === null ? null : code.get(entry.cloneOf),
        entry.group,
      ],
    ]),
  );
}

onBothStores('the pedigree of a programme', (store) => {
  // source: the design's words on parentage and founder groups; written out by hand.
  it('has parents from the genet or its cross, sports, and founder groups by name, provenance and taxon', async () => {
    const programme = await store.make();
    await plantFamily(programme);
    expect(await pedigreeByCode(programme)).toEqual({
      north: ['', '', null, 'Lupinus polyphyllus, northern uplands'],
      shore: ['', '', null, 'Lupinus arboreus'],
      named: ['', '', null, 'old garden'],
      stray: ['', '', null, null],
      f1: ['north:1', 'shore:1', null, null],
      mended: ['north:1', 'named:0.5;self:0.2', null, null],
      sport: ['', '', 'f1', null],
    });
  });

  it('is one that kinship can be worked out from', async () => {
    const programme = await store.make();
    const [north, shore, , , f1, mended, sport] = await plantFamily(programme);
    const kinship = kinshipOf(await readPedigree(programme.read));
    expect(kinship.relationship(f1!, north!)).toBe(0.5);
    expect(kinship.relationship(f1!, shore!)).toBe(0.5);
    expect(kinship.relationship(sport!, f1!)).toBe(1);
    // A fifth of its pollen is its seed parent's own: ½ + ½ × 0.2, and half of that chance for inbreeding.
    expect(kinship.relationship(mended!, north!)).toBeCloseTo(0.6, 12);
    expect(kinship.inbreeding[kinship.indexOf(mended!)!]).toBeCloseTo(0.1, 12);
  });

  // source: the parents of seed are those of the lot that it was taken from; common practice, no source.
  it('has what is known of the seed lot where neither genet nor cross names parents', async () => {
    const programme = await store.make();
    await plantFamily(programme);
    await act(programme, by, async (doing) => {
      await add(doing, 'seed-lots', [
        { code: 'S1', cross: 'X1' },
        { code: 'S2', seed_parent: 'stray' },
      ]);
      await add(doing, 'sowings', [{ code: 'W1', seed_lot: 'S2', on: '2020-02-01', seeds: 20 }]);
      await add(doing, 'genets', [
        { code: 'of the cross', seed_lot: 'S1' },
        { code: 'open', sowing: 'W1' },
        { code: 'told', seed_lot: 'S1', seed_parent: [{ genet: 'named', chance: 1 }] },
      ]);
    });
    expect(await pedigreeByCode(programme)).toMatchObject({
      'of the cross': ['north:1', 'shore:1', null, null],
      open: ['stray:1', '', null, null],
      told: ['named:1', '', null, null],
    });
  });

  it('refuses a loop by way of a seed lot, whichever record would close it', async () => {
    const programme = await store.make();
    const made = await act(programme, by, async (doing) => {
      const [mother] = await add(doing, 'genets', [{ code: 'mother' }]);
      const [lot] = await add(doing, 'seed-lots', [{ code: 'S1', seed_parent: 'mother' }]);
      await add(doing, 'sowings', [{ code: 'W1', seed_lot: 'S1', on: '2020-02-01', seeds: 20 }]);
      const [child] = await add(doing, 'genets', [{ code: 'child', sowing: 'W1' }]);
      return { mother: mother!, lot: lot!, child: child! };
    });
    const loop = /own ancestor: |own parent/;
    await expect(
      act(programme, by, (doing) => change(doing, 'genets', made.mother, { seed_lot: 'S1' })),
    ).rejects.toThrow(loop);
    await expect(
      act(programme, by, (doing) => change(doing, 'seed-lots', made.lot, { seed_parent: 'child' })),
    ).rejects.toThrow(loop);
  });
});
