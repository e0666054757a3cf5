import { type BriefData, evidenceFromNotes, matchFromNotes } from '@keelrow/breeding/brief';
import type { TraitNote } from '@keelrow/breeding/evaluation';
import { FitCancelledError, seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { crossed, genets } from '../evaluation/layouts.ts';
import { brief, limit, traits } from './evidence.ts';

const names = genets(30);

/** Thirty genets, two plants each, in three years: height rises with age up to the fourth year, colour and habit do not. */
function garden(): BriefData {
  const random = seededRandom('garden');
  const worth = new Map(names.map((genet) => [genet, random.normal()]));
  const rows = crossed(crossed(names, [1, 2]), [0, 1, 2]).map(([[genet, k], later], index) => ({
    note: `n${index}`,
    genet,
    plant: `${genet}/${k}`,
    year: 2030 + later,
    site: 'home',
    bed: null,
    age: 2 + later + (k === 1 ? 0 : 1),
    observer: null,
  }));
  const line = (value: (row: (typeof rows)[number]) => number): TraitNote[] =>
    rows.map((row) => ({ ...row, value: value(row) }));
  const own = (genet: string) => worth.get(genet)!;
  return {
    brief: brief(
      limit('height', { atLeast: 100 }),
      limit('banner', { colour: { l: 50, a: 20, b: -20 }, colourWithin: 8 }),
      limit('habit', { classes: ['leafy'], must: false }),
      limit('spikes', { atLeast: 4, must: false }),
    ),
    traits,
    genets: [...names, 'new'].map((id) => ({ id, code: id, name: null, standard: false })),
    pedigree: null,
    lines: [
      {
        line: { trait: 'height', axis: null },
        notes: line(
          ({ genet, age }) => 90 + 12 * own(genet) + 5 * Math.min(age, 4) - 15 + 0.5 * random.normal(),
        ),
      },
      {
        line: { trait: 'banner', axis: 'l' },
        notes: line(({ genet }) => 50 + 6 * own(genet) + random.normal()),
      },
      {
        line: { trait: 'banner', axis: 'a' },
        notes: line(({ genet }) => 20 - 3 * own(genet) + random.normal()),
      },
      { line: { trait: 'banner', axis: 'b' }, notes: line(() => -20 + random.normal()) },
      { line: { trait: 'spikes', axis: null }, notes: [] },
    ],
    classes: [{ trait: 'habit', notes: line(({ genet }) => (own(genet) > 0 ? 2 : 0)) }],
  };
}

describe('a brief held against notes', () => {
  it('gives every genet its chance, one without notes that of the garden’s spread, and says what cannot be told', () => {
    const { plants, limits, heed, traits: named } = matchFromNotes(garden());
    expect(plants).toHaveLength(31);
    expect(plants.every(({ chance }) => chance !== null && chance >= 0 && chance <= 1)).toBe(true);
    const unnoted = plants.find(({ code }) => code === 'new')!;
    expect(unnoted.notes).toBe(0);
    expect(unnoted.chance).toBeGreaterThan(0);
    expect(unnoted.limits[0]).toMatchObject({ notes: 0 });
    const widths = plants.map(({ limits: [height] }) => height!.high! - height!.low!);
    expect(unnoted.limits[0]!.high! - unnoted.limits[0]!.low!).toBe(Math.max(...widths));
    expect(limits[3]!.unknown).toBe(
      'There are no notes of Spikes yet; note it on some genets, on two plants or in two years each, and it can be told.',
    );
    expect(heed.join(' ')).toContain('grown plants');
    expect(named.find(({ code }) => code === 'banner')).toMatchObject({ notes: 30, genets: 30 });
  });

  it('says of notes that tell nothing why, and leaves the must out', () => {
    const data = garden();
    const flat = data.lines.map(({ line, notes }) =>
      line.trait === 'height'
        ? { line, notes: notes.map((note) => ({ ...note, value: 90 })) }
        : { line, notes },
    );
    const { limits, heed, plants } = matchFromNotes({ ...data, lines: flat });
    expect(limits[0]!.unknown).toBe(
      'Height: All 180 notes say the same; there is nothing to tell the genets apart by.',
    );
    expect(heed[0]).toMatch(
      /^A must that is not counted in the chance: Height at least 100 cm\. Height: All 180/,
    );
    expect(plants[0]!.limits[0]!.chance).toBeNull();
    expect(plants[0]!.chance).toBe(plants[0]!.limits[1]!.chance);
  });

  it('takes heights as of grown plants, not of the average age of the notes', () => {
    const data = garden();
    const { joint } = evidenceFromNotes(data);
    const all = names.map((genet) => joint.of(genet).mean[joint.keys.indexOf('height')]!);
    const notes = data.lines[0]!.notes;
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    // Grown plants (4 years and more) are 5 cm taller than those of 3 years, 10 cm than those of 2: by hand, a sixth of the
    // notes is on plants of 2 years, a third each of 3 and 4, a sixth of 5, so the average note lies 10/6 + 5/3 below.
    expect(mean(all) - mean(notes.map(({ value }) => value))).toBeCloseTo(10 / 6 + 5 / 3, 0);
  });

  it('reads the same numbers on every run, and stops when asked', () => {
    expect(matchFromNotes(garden())).toEqual(matchFromNotes(garden()));
    expect(() => matchFromNotes(garden(), { isCancelled: () => true })).toThrow(FitCancelledError);
    const steps: string[] = [];
    matchFromNotes(garden(), { onProgress: (_, step) => steps.push(step) });
    expect(steps[0]).toBe('fitting the model of Height');
    expect(steps.at(-1)).toBe('holding genets against the brief');
  });
});
