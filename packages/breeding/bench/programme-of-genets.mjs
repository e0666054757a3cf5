import { seededRandom } from '@keelrow/quant';

/** Genets of the programme by generation, parents taken from the three generations before (half from the last). */
export function programmeOfGenets({ genets, generations, parents, family, seed = 'pedigree' }) {
  const random = seededRandom(seed);
  const pick = (list) => list[random.integer(list.length)];
  const entries = [];
  const chosen = [];
  const each = genets / generations;
  const founder = { seedParents: [], pollenParents: [], cloneOf: null, group: null };
  const candidates = (pool, mother) => {
    const names = new Set();
    const count = 3 + random.integer(3);
    // A pool of few may name a parent twice.
    const most = Math.min(count, new Set(pool).size);
    while (names.size < most) names.add(pick(pool));
    const list = [...names].map((genet) => ({ genet, chance: 0.1 + random.uniform() }));
    if (random.uniform() < 0.5) list.push({ genet: 'self', chance: 0.2 });
    const total = list.reduce((sum, { chance }) => sum + chance, 0) / (random.uniform() < 0.5 ? 1 : 0.8);
    return list
      .filter(({ genet }) => genet !== mother)
      .map(({ genet, chance }) => ({ genet, chance: chance / total }));
  };
  for (let g = 0; g < generations; g++) {
    const born = [];
    const parentsOf = (side) => {
      const back = random.uniform() < 0.5 ? 1 : 2 + random.integer(2);
      return chosen[Math.max(0, g - back)][side];
    };
    while (born.length < each) {
      const open = random.uniform() < 0.1;
      const mother = g === 0 ? null : pick(parentsOf('seed'));
      const pool = g === 0 ? null : parentsOf('pollen');
      const father = g === 0 ? null : pick(pool);
      const shared =
        g === 0
          ? founder
          : {
              ...founder,
              seedParents: [{ genet: mother, chance: 1 }],
              pollenParents: open
                ? candidates(pool, mother)
                : [{ genet: father === mother ? 'self' : father, chance: 1 }],
            };
      for (let k = 0; k < family && born.length < each; k++) {
        const genet = `${g + 1}-${born.length + 1}`;
        born.push(genet);
        entries.push({
          genet,
          ...shared,
          // Lists of their own, as a reader of files would make them.
          seedParents: shared.seedParents.map((parent) => ({ ...parent })),
          pollenParents: shared.pollenParents.map((parent) => ({ ...parent })),
        });
      }
    }
    const some = Array.from({ length: parents }, () => pick(born));
    const pollen = Math.max(1, Math.round(parents / 3));
    chosen.push({ pollen: some.slice(0, pollen), seed: some.slice(pollen) });
  }
  return entries;
}
