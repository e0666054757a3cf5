import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type EstimatesReport, evaluate, reportEstimates } from '@keelrow/breeding/evaluation';
import { dayOfYear, usualSettings } from '@keelrow/breeding/facts';
import { type CharacterName, type GardenTruth, simulateGarden } from '@keelrow/demo';
import { fillWithDemo, openProgramme, readTraitNotes, type TraitNotes } from '@keelrow/records';
import { describe, expect, it } from 'vitest';

const gardens = 20;
const seedlings = 200;

/** Traits whose values grow with the plant: their truth is for a plant of the fourth season in a middle year. */
const growing = [
  'height',
  'spike-length',
  'spike-count',
  'width',
  'foliage-height',
  'florets-per-spike',
] as const;
const steady = ['lodging', 'leaf-spot', 'spike-angle'] as const;
const traits = [...growing, ...steady, 'first-flower'] as const;
type Trait = (typeof traits)[number];

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * True values of the genets on the scale of the estimates. For a growing trait that is the whole genetic value times
 * one factor for the garden, which brings the fourth season to the average noted plant: the mean of the notes over
 * the mean of the true values of their genets. For first flower it is the genet's day, averaged over the years noted.
 */
function truthOf(trait: Trait, { notes, genets }: TraitNotes, truth: GardenTruth): (code: string) => number {
  if (trait === 'first-flower') {
    const years = [...new Set(notes.map(({ year }) => year))];
    return (code) =>
      mean(years.flatMap((year) => truth.stageDay(code, 'first-flower', year) ?? []).map(dayOfYear));
  }
  const character: CharacterName = trait;
  const value = (code: string) => truth.total(code, character);
  if (!growing.some((name) => name === trait)) return value;
  const factor =
    mean(notes.map((note) => note.value)) / mean(notes.map(({ genet }) => value(genets.get(genet)!.code)));
  return (code) => factor * value(code);
}

/** Of the ranges shown, how many hold the truth; both are taken from their own averages, as ranking does. */
function held(report: EstimatesReport, truly: (code: string) => number): { ranges: number; held: number } {
  const shown = report.estimates.map(({ code, effect, low, high }) => ({
    effect,
    half: (high - low) / 2,
    truth: truly(code),
  }));
  const [middle, trueMiddle] = [
    mean(shown.map(({ effect }) => effect)),
    mean(shown.map(({ truth }) => truth)),
  ];
  return {
    ranges: shown.length,
    held: shown.filter(({ effect, half, truth }) => Math.abs(effect - middle - (truth - trueMiddle)) <= half)
      .length,
  };
}

async function oneGarden(
  seed: number,
  count: (trait: Trait, found: ReturnType<typeof held>) => void,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'keelrow-calibration-'));
  const programme = await openProgramme(folder, usualSettings);
  try {
    const options = { seed, genets: seedlings };
    await fillWithDemo(programme, { person: null, device: null, via: 'demo' }, {}, options);
    const { truth } = simulateGarden(options);
    for (const trait of traits) {
      const data = (await readTraitNotes(programme.read, trait))!;
      const report = reportEstimates(evaluate(data.notes), data.notes, data);
      count(trait, held(report, truthOf(trait, data, truth)));
    }
  } finally {
    await programme.close();
    rmSync(folder, { recursive: true });
  }
}

/**
 * Calibration, first form: the 80% ranges of twenty simulated gardens against the truth behind them. Wrong labels,
 * slips that nobody noticed, selective notes, rounding and skew are in these gardens and not in the model, and kinship
 * is not in the model yet, so the band is wide; docs/checks.md says what the figures were.
 */
describe('ranges of 80%', () => {
  it(`hold the truth in 65 to 92 of 100 genets, trait by trait, over ${gardens} gardens`, async () => {
    const found = new Map<Trait, { ranges: number; held: number }>();
    for (let seed = 1; seed <= gardens; seed++) {
      await oneGarden(seed, (trait, { ranges, held }) => {
        const sum = found.get(trait) ?? { ranges: 0, held: 0 };
        found.set(trait, { ranges: sum.ranges + ranges, held: sum.held + held });
      });
    }
    const shares = [...found].map(([trait, { ranges, held }]) => ({
      trait,
      ranges,
      percent: (100 * held) / ranges,
    }));
    console.log(
      shares.map(({ trait, ranges, percent }) => `${trait} ${percent.toFixed(1)}% of ${ranges}`).join('; '),
    );
    for (const { trait, ranges, percent } of shares) {
      expect(ranges, trait).toBeGreaterThan(1000);
      expect(percent, trait).toBeGreaterThan(65);
      expect(percent, trait).toBeLessThan(92);
    }
    const sums = [...found.values()];
    const overall = (100 * mean(sums.map(({ held }) => held))) / mean(sums.map(({ ranges }) => ranges));
    console.log(`all traits ${overall.toFixed(1)}%`);
    expect(overall).toBeGreaterThan(70);
    expect(overall).toBeLessThan(88);
  }, 600_000);
});
