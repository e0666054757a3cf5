import { dayNumber, type KindName, type Lab, type Row } from '@keelrow/breeding/facts';
import { describe, expect, it } from 'vitest';
import { type CharacterName, type SimulatedGarden, simulateGarden } from '../src/index.ts';

/*
 * The garden is held against what is known of gardens, with wide margins: these tests say that the simulation is one
 * that a breeder would believe, not that its figures are right. Bounds are common practice, no source, unless said.
 */
const gardens = [20260610, 1, 2].map((seed) => simulateGarden({ seed }));

const tables = new Map(
  gardens.map((garden) => {
    const byKind = new Map<KindName, object[]>();
    for (const { kind, row } of garden.records) {
      const table = byKind.get(kind);
      if (table) table.push(row);
      else byKind.set(kind, [row]);
    }
    return [garden, byKind] as const;
  }),
);

function rows<K extends KindName>(garden: SimulatedGarden, kind: K): Row<K>[] {
  return tables.get(garden)!.get(kind) as Row<K>[];
}
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
const variance = (values: readonly number[]): number => {
  const m = mean(values);
  return values.reduce((sum, v) => sum + (v - m) ** 2, 0) / (values.length - 1);
};
const slope = (pairs: readonly (readonly [number, number])[]): number => {
  const [mx, my] = [mean(pairs.map(([x]) => x)), mean(pairs.map(([, y]) => y))];
  return (
    pairs.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0) /
    pairs.reduce((sum, [x]) => sum + (x - mx) ** 2, 0)
  );
};
const correlation = (pairs: readonly (readonly [number, number])[]): number =>
  slope(pairs) * Math.sqrt(variance(pairs.map(([x]) => x)) / variance(pairs.map(([, y]) => y)));

const bred = (garden: SimulatedGarden) =>
  [...garden.truth.genets].filter(([, { seedParent }]) => seedParent !== null);
const traits: CharacterName[] = [
  'height',
  'spike-length',
  'spike-count',
  'first-flower-heat',
  'anthocyanin',
  'yellow',
];

describe('what is inherited', () => {
  it('is passed on by halves: the true additive value regresses on the mean of the true parents with slope 1', () => {
    for (const garden of gardens) {
      for (const trait of traits) {
        const pairs = bred(garden).flatMap(([code, { seedParent, pollenParent }]) =>
          pollenParent === null
            ? []
            : [
                [
                  (garden.truth.additive(seedParent!, trait) + garden.truth.additive(pollenParent, trait)) /
                    2,
                  garden.truth.additive(code, trait),
                ] as const,
              ],
        );
        // source: expectation of Mendelian sampling is zero (Falconer & Mackay 1996, chapter 9); 1,400 seedlings.
        expect([trait, slope(pairs)]).toEqual([trait, expect.closeTo(1, 0)]);
        expect(Math.abs(slope(pairs) - 1)).toBeLessThan(0.12);
      }
    }
  });

  it('shows the F1 of two species uniform and the next generation scattered', () => {
    for (const garden of gardens) {
      const { truth } = garden;
      const founders = (code: string | null) =>
        code === null ? null : (truth.genets.get(code)?.founders ?? null);
      const isF1 = (code: string) => {
        const { seedParent, pollenParent } = truth.genets.get(code)!;
        const [a, b] = [founders(seedParent), founders(pollenParent)];
        return a !== null && b !== null && a !== b && a !== 'garden' && b !== 'garden';
      };
      const families = (fits: (code: string) => boolean) => {
        const byParents = new Map<string, string[]>();
        for (const [code, { seedParent, pollenParent }] of bred(garden)) {
          if (!fits(code)) continue;
          const key = `${seedParent} ${pollenParent}`;
          byParents.set(key, [...(byParents.get(key) ?? []), code]);
        }
        return [...byParents.values()].filter((family) => family.length >= 6);
      };
      const first = families(isF1);
      const second = families((code) => {
        const { seedParent, pollenParent } = truth.genets.get(code)!;
        return pollenParent !== null && isF1(seedParent!) && isF1(pollenParent);
      });
      expect(Math.min(first.length, second.length)).toBeGreaterThan(0);
      const within = (all: string[][], trait: CharacterName) =>
        mean(all.map((family) => variance(family.map((code) => truth.total(code, trait)))));
      for (const trait of ['height', 'spike-length', 'anthocyanin', 'first-flower-heat'] as const) {
        expect([trait, within(second, trait) / within(first, trait)]).toEqual([trait, expect.any(Number)]);
        expect(within(second, trait) / within(first, trait)).toBeGreaterThan(2);
      }
    }
  });
});

describe('what is noted', () => {
  const garden = gardens[0]!;
  const notes = rows(garden, 'notes');
  const plants = new Map(rows(garden, 'plants').map((plant) => [plant.code, plant]));
  const wrong = new Set(garden.truth.wrongLabels.map(({ plant }) => plant));
  const numbers = (trait: string) =>
    notes.filter(
      (note) =>
        note.trait === trait && note.plant && typeof note.value === 'number' && !wrong.has(note.plant),
    );

  it('puts the repeatability of grown plants between 0.3 and 0.9', () => {
    for (const trait of ['height', 'spike-length', 'spike-count']) {
      const byPlant = new Map<string, number[]>();
      for (const note of numbers(trait)) {
        const plant = plants.get(note.plant!)!;
        const age =
          Number(note.on.slice(0, 4)) - Number(plant.planted_on!.slice(0, 4)) + (plant.age_at_planting ?? 0);
        if (age >= 3) byPlant.set(note.plant!, [...(byPlant.get(note.plant!) ?? []), note.value as number]);
      }
      const repeated = [...byPlant.values()].filter((values) => values.length >= 2);
      const error = mean(repeated.map(variance));
      const total = variance(repeated.flat());
      expect([trait, 1 - error / total > 0.3, 1 - error / total < 0.9]).toEqual([trait, true, true]);
    }
  });

  it('shows few spikes at first flower and more on the same plants in the next two seasons', () => {
    const byPlant = new Map<string, Map<number, number>>();
    for (const note of numbers('spike-count')) {
      const plant = plants.get(note.plant!)!;
      if (plant.raised_as !== 'seedling' || plant.age_at_planting !== 0) continue;
      const season = Number(note.on.slice(0, 4)) - Number(plant.planted_on!.slice(0, 4));
      byPlant.set(note.plant!, (byPlant.get(note.plant!) ?? new Map()).set(season, note.value as number));
    }
    for (const season of [1, 2]) {
      const pairs = [...byPlant.values()].filter((seen) => seen.has(season) && seen.has(season + 1));
      expect(pairs.length).toBeGreaterThan(20);
      expect(mean(pairs.map((seen) => seen.get(season + 1)! - seen.get(season)!))).toBeGreaterThan(1);
    }
  });

  it('lets means over years and plants follow the true values, though not closely', () => {
    for (const trait of ['height', 'spike-length', 'spike-count', 'lodging'] as const) {
      const byGenet = new Map<string, number[]>();
      for (const note of numbers(trait)) {
        const plant = plants.get(note.plant!)!;
        const age =
          Number(note.on.slice(0, 4)) - Number(plant.planted_on!.slice(0, 4)) + (plant.age_at_planting ?? 0);
        if (age >= 3) byGenet.set(plant.genet, [...(byGenet.get(plant.genet) ?? []), note.value as number]);
      }
      const pairs = [...byGenet]
        .filter(([, values]) => values.length >= 3)
        .map(([genet, values]) => [garden.truth.total(genet, trait), mean(values)] as const);
      expect([trait, pairs.length > 40]).toEqual([trait, true]);
      expect([trait, correlation(pairs) > 0.4, correlation(pairs) < 0.98]).toEqual([trait, true, true]);
    }
  });

  it('is much thinner on plants that turn out poor than on good ones', () => {
    const discarded = new Set(
      rows(garden, 'decisions').flatMap(({ plant, decision }) => (decision === 'discard' ? [plant!] : [])),
    );
    const kept = new Set(
      rows(garden, 'decisions').flatMap(({ plant, decision }) => (decision === 'keep' ? [plant!] : [])),
    );
    const perPlant = (set: Set<string>) =>
      notes.filter(({ plant }) => plant && set.has(plant)).length / set.size;
    expect(perPlant(kept)).toBeGreaterThan(2 * perPlant(discarded));
    const judged = new Set([...discarded, ...kept]);
    expect(discarded.size / judged.size).toBeGreaterThan(0.6);
  });

  it('says “not yet” before it says “seen”, and never after', () => {
    const seen = new Map<string, string>();
    const key = (note: Row<'notes'>) => `${note.plant} ${note.trait} ${note.on.slice(0, 4)}`;
    for (const note of notes)
      if (note.trait === 'first-flower' && note.state === 'seen') seen.set(key(note), note.on);
    let held = 0;
    for (const note of notes) {
      if (note.trait !== 'first-flower' || note.state !== 'not yet') continue;
      const on = seen.get(key(note));
      if (on) {
        held++;
        expect(note.on < on).toBe(true);
      }
    }
    expect(held).toBeGreaterThan(300);
  });

  it('differs between people: Tobin Ashdale measures higher and to the nearest five', () => {
    const by = (person: string) =>
      numbers('height')
        .filter((note) => note.by === person)
        .map(({ value }) => value as number);
    expect(by('TA').filter((value) => value % 5 !== 0).length / by('TA').length).toBeLessThan(0.03);
    expect(by('MK').filter((value) => value % 5 !== 0).length / by('MK').length).toBeGreaterThan(0.6);
  });

  it('has colours from white through blue and yellow', () => {
    const colours = notes.flatMap(({ trait, value }) => (trait === 'banner-colour' ? [value as Lab] : []));
    const share = (fits: (lab: Lab) => boolean) => colours.filter(fits).length / colours.length;
    expect(share(({ l, a, b }) => l > 85 && Math.hypot(a, b) < 30)).toBeGreaterThan(0.02);
    expect(share(({ b }) => b < -25)).toBeGreaterThan(0.1);
    expect(share(({ b }) => b > 35)).toBeGreaterThan(0.05);
  });
});

describe('bloom', () => {
  const garden = gardens[0]!;
  const years = [2019, 2020, 2021, 2022, 2023, 2024, 2025];
  const founders = [...garden.truth.genets]
    .filter(([, each]) => each.founders !== null)
    .map(([code]) => code);
  const day = (code: string, year: number) =>
    dayNumber(garden.truth.stageDay(code, 'first-flower', year)!) - dayNumber(`${year}-01-01`);

  it('moves by one to three weeks between the earliest and the latest year', () => {
    const means = years.map((year) => mean(founders.map((code) => day(code, year))));
    const range = Math.max(...means) - Math.min(...means);
    expect(range).toBeGreaterThan(6);
    expect(range).toBeLessThan(24);
  });

  it('keeps the order of the genets from year to year, in what people noted too', () => {
    expect(correlation(founders.map((code) => [day(code, 2021), day(code, 2022)] as const))).toBeGreaterThan(
      0.98,
    );
    const noted = new Map<string, Map<number, number>>();
    for (const { plant, trait, state, on } of rows(garden, 'notes')) {
      if (trait !== 'first-flower' || state !== 'seen' || !plant) continue;
      const year = Number(on.slice(0, 4));
      noted.set(plant, (noted.get(plant) ?? new Map()).set(year, dayNumber(on) - dayNumber(`${year}-01-01`)));
    }
    const pairs = [...noted.values()].flatMap((byYear) =>
      byYear.has(2021) && byYear.has(2022) ? [[byYear.get(2021)!, byYear.get(2022)!] as const] : [],
    );
    expect(pairs.length).toBeGreaterThan(30);
    expect(correlation(pairs)).toBeGreaterThan(0.6);
  });

  it('lasts two to five weeks on a grown plant', () => {
    const days = founders.flatMap((code) => {
      const end = garden.truth.stageDay(code, 'end-of-flower', 2021);
      return end ? [dayNumber(end) - dayNumber(garden.truth.stageDay(code, 'first-flower', 2021)!)] : [];
    });
    expect(mean(days)).toBeGreaterThan(14);
    expect(mean(days)).toBeLessThan(35);
  });
});

describe('cuttings', () => {
  it('hardly return without a bud below the surface, and mostly do with one', () => {
    const counts = gardens.flatMap((garden) => rows(garden, 'batch-counts'));
    const sum = (step: string, bud: boolean) =>
      counts
        .filter((count) => count.step === step && count.bud_below === bud)
        .reduce((total, { count }) => total + count, 0);
    expect(sum('returned in spring', false) / sum('into winter', false)).toBeLessThan(0.08);
    expect(sum('returned in spring', true) / sum('into winter', true)).toBeGreaterThan(0.55);
  });

  it('never count more at a step than at the step before', () => {
    for (const garden of gardens) {
      const stuck = new Map(rows(garden, 'batches').map((batch) => [batch.code, batch.stuck]));
      const at = new Map<string, number>();
      for (const { batch, step, bud_below: bud, count } of rows(garden, 'batch-counts'))
        at.set(`${batch} ${step} ${bud ?? ''}`, count);
      for (const [code, number] of stuck) {
        const rooted = at.get(`${code} rooted `);
        if (rooted !== undefined) expect(rooted).toBeLessThanOrEqual(number);
        for (const bud of ['true', 'false']) {
          const [potted, into, back] = ['potted on', 'into winter', 'returned in spring'].map((step) =>
            at.get(`${code} ${step} ${bud}`),
          );
          if (potted !== undefined && into !== undefined) expect(into).toBeLessThanOrEqual(potted);
          if (into !== undefined && back !== undefined) expect(back).toBeLessThanOrEqual(into);
        }
      }
    }
  });
});

describe('parentage and labels', () => {
  it('have about 2% of plants under a wrong label, some of them found out', () => {
    const share = mean(
      gardens.map((garden) => garden.truth.wrongLabels.length / rows(garden, 'plants').length),
    );
    expect(share).toBeGreaterThan(0.012);
    expect(share).toBeLessThan(0.032);
    const found = gardens
      .flatMap(({ truth }) => truth.wrongLabels)
      .filter(({ foundOut }) => foundOut !== null);
    expect(found.length).toBeGreaterThan(5);
  });

  it('give seed that bees set several true fathers, listed about as often as the breeders’ chances say', () => {
    let [listed, chances, all] = [0, 0, 0];
    for (const garden of gardens) {
      const open = new Set(
        rows(garden, 'crosses').flatMap(({ code, sort }) => (sort === 'open-pollinated' ? [code] : [])),
      );
      const families = new Map<string, (string | null)[]>();
      for (const genet of rows(garden, 'genets')) {
        if (!genet.cross || !open.has(genet.cross)) continue;
        const { seedParent, pollenParent } = garden.truth.genets.get(genet.code)!;
        families.set(genet.cross, [...(families.get(genet.cross) ?? []), pollenParent]);
        const father = pollenParent === seedParent ? 'self' : pollenParent;
        all++;
        if (genet.pollen_parent!.some((possible) => possible.genet === father)) listed++;
        chances += genet.pollen_parent!.reduce((sum, { chance }) => sum + chance, 0);
      }
      for (const [cross, fathers] of families) {
        if (fathers.length >= 8) expect([cross, new Set(fathers).size > 2]).toEqual([cross, true]);
      }
    }
    expect(all).toBeGreaterThan(200);
    expect(Math.abs(listed - chances) / all).toBeLessThan(0.2);
  });

  it('has some forty selections that stand as several plants', () => {
    for (const garden of gardens) {
      const standing = new Map<string, number>();
      for (const { genet, raised_as: raisedAs, batch } of rows(garden, 'plants')) {
        if (raisedAs === 'cutting' && batch) standing.set(genet, (standing.get(genet) ?? 0) + 1);
      }
      const several = [...standing.values()].filter((number) => number >= 2).length;
      expect(several).toBeGreaterThan(30);
      expect(several).toBeLessThan(60);
    }
  });
});
