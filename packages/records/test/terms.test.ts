import { expect, it } from 'vitest';
import { onBothStores } from '../../../tests/support/stores.ts';
import { act, add, type Programme, readGenetPage, withdraw } from '../src/index.ts';

const by = { person: null, device: null, via: 'browser' as const };

/**
 * A wild accession W gives genet A. A × B gives the cross X, from which C was raised; C's open-pollinated seed gave D;
 * S is a sport of C; V is a volunteer that may be A's child; U has nothing to do with them.
 */
async function breed(programme: Programme): Promise<void> {
  await act(programme, by, async (doing) => {
    await add(doing, 'taxa', [{ name: 'Lupinus albus' }, { name: 'Lupinus perennis' }]);
    await add(doing, 'accessions', [{ code: 'W', taxon: 'Lupinus perennis' }, { code: 'N' }]);
    await add(doing, 'genets', [
      { code: 'A', accession: 'W' },
      { code: 'B', taxon: 'Lupinus albus' },
      { code: 'U' },
    ]);
    await add(doing, 'crosses', [
      { code: 'X', seed_parent: [{ genet: 'B', chance: 1 }], pollen_parent: [{ genet: 'A', chance: 1 }] },
    ]);
    await add(doing, 'genets', [{ code: 'C', cross: 'X' }]);
    await add(doing, 'seed-lots', [
      { code: 'L', seed_parent: 'C' },
      { code: 'M', accession: 'N' },
    ]);
    await add(doing, 'sowings', [{ code: 'Q', seed_lot: 'M', on: '2021-03-01', seeds: 30 }]);
    await add(doing, 'genets', [
      { code: 'D', seed_parent: [{ genet: 'C', chance: 1 }] },
      { code: 'S', clone_of: 'C' },
      {
        code: 'V',
        seed_parent: [{ genet: 'U', chance: 0.5 }],
        pollen_parent: [{ genet: 'A', chance: 0.05 }],
      },
      { code: 'E', seed_lot: 'L' },
      { code: 'F', sowing: 'Q' },
    ]);
  });
}

const term = (programme: Programme, fields: object) =>
  act(
    programme,
    by,
    async (doing) =>
      (await add(doing, 'terms', [{ from_whom: 'county', asks: 'do not sell', ...fields }]))[0]!,
  );

/** Codes of the genets that each are bound, with the ancestor through which they are. */
async function bound(programme: Programme): Promise<Record<string, string[]>> {
  const found: Record<string, string[]> = {};
  for (const code of ['A', 'B', 'C', 'D', 'E', 'F', 'S', 'U', 'V']) {
    const { terms } = await readGenetPage(programme.read, code);
    if (terms.length > 0) found[code] = terms.map((one) => `${one.code} through ${one.through}`);
  }
  return found;
}

onBothStores('terms', (store) => {
  it('of an accession follow its progeny through crosses, sports, seed lots and guessed parents', async () => {
    const programme = await store.make();
    await breed(programme);
    await term(programme, { code: 'T-1', accession: 'W', descends: true });
    expect(await bound(programme)).toEqual({
      A: ['T-1 through A'],
      C: ['T-1 through A'],
      D: ['T-1 through A'],
      E: ['T-1 through A'],
      S: ['T-1 through A'],
      V: ['T-1 through A'],
    });
  });

  it('that do not descend bind the material itself alone', async () => {
    const programme = await store.make();
    await breed(programme);
    await term(programme, { code: 'T-1', accession: 'W', descends: false });
    await term(programme, { code: 'T-2', genet: 'C' });
    expect(await bound(programme)).toEqual({ A: ['T-1 through A'], C: ['T-2 through C'] });
  });

  it('of a taxon bind all of it, by the genet’s own name or its accession’s', async () => {
    const programme = await store.make();
    await breed(programme);
    await term(programme, { code: 'T-1', taxon: 'Lupinus albus', descends: true });
    await term(programme, { code: 'T-2', taxon: 'Lupinus perennis', descends: false });
    expect(await bound(programme)).toEqual({
      A: ['T-2 through A'],
      B: ['T-1 through B'],
      C: ['T-1 through B'],
      D: ['T-1 through B'],
      E: ['T-1 through B'],
      S: ['T-1 through B'],
    });
  });

  it('of an accession bind what was raised from its seed lots', async () => {
    const programme = await store.make();
    await breed(programme);
    await term(programme, { code: 'T-1', accession: 'N', descends: false });
    expect(await bound(programme)).toEqual({ F: ['T-1 through F'] });
  });

  it('name the genet itself before an ancestor, and the nearest ancestor before others', async () => {
    const programme = await store.make();
    await breed(programme);
    for (const genet of ['A', 'C', 'D']) await term(programme, { code: `T-${genet}`, genet, descends: true });
    await term(programme, { code: 'T-taxon', taxon: 'Lupinus perennis', descends: true });
    expect(
      (await readGenetPage(programme.read, 'D')).terms.map(({ code, through }) => [code, through]),
    ).toEqual([
      ['T-A', 'A'],
      ['T-C', 'C'],
      ['T-D', 'D'],
      ['T-taxon', 'A'],
    ]);
  });

  it('that were withdrawn bind no longer', async () => {
    const programme = await store.make();
    await breed(programme);
    const id = await term(programme, { code: 'T-1', accession: 'W', descends: true });
    await act(programme, by, (doing) => withdraw(doing, 'terms', id, 'the county took it back'));
    expect(await bound(programme)).toEqual({});
  });
});
