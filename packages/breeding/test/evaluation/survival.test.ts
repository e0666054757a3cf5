import { readFileSync } from 'node:fs';
import { type PlantWinter, type WinterSurvival, winterSurvival } from '@keelrow/breeding/evaluation';
import { seededRandom } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { gaussHermite } from '../../src/evaluation/survival/gauss-hermite.ts';
import { fitLogit, type Outcomes } from '../../src/evaluation/survival/logit-by-group.ts';

interface Herds {
  readonly herd: number[];
  readonly period: number[];
  readonly ill: number[];
  readonly size: number[];
  readonly coefficients: number[];
  readonly errors: number[];
  readonly spread: number;
  readonly modes: number[];
}

describe('Gauss-Hermite quadrature', () => {
  it('has the roots and weights of the handbook', () => {
    // source: Abramowitz & Stegun 1964, table 25.10, n = 5.
    const { nodes, weights } = gaussHermite(5);
    const [first, second, third] = [2.0201828704561, 0.9585724646138, 0];
    [first, second, third, -second!, -first!].forEach((node, k) => {
      expect(nodes[k]).toBeCloseTo(node!, 12);
    });
    expect(weights[0]).toBeCloseTo(1.9953242059046e-2, 12);
    expect(weights[1]).toBeCloseTo(3.9361932315224e-1, 12);
    expect(weights[2]).toBeCloseTo(9.4530872048294e-1, 12);
  });
});

describe('a logistic regression with an effect for each group', () => {
  // source: lme4 1.1-31, glmer with 15 quadrature nodes; data of Lesnoff and others 2004; script beside the fixture.
  const herds: Herds = JSON.parse(
    readFileSync(new URL('./fixtures/pneumonia-by-herd.json', import.meta.url), 'utf8'),
  );
  const groups: Outcomes[] = [...new Set(herds.herd)].map((herd) => {
    const happened: number[] = [];
    const columns: number[] = [];
    herds.herd.forEach((own, row) => {
      if (own !== herd) return;
      for (let k = 0; k < herds.size[row]!; k++) {
        happened.push(k < herds.ill[row]! ? 1 : 0);
        columns.push(1, ...[2, 3, 4].map((period) => (herds.period[row] === period ? 1 : 0)));
      }
    });
    return { happened: Uint8Array.from(happened), columns: Float64Array.from(columns) };
  });
  const fit = fitLogit(groups, new Float64Array(4));

  it('has the coefficients, errors, spread and modes of a reference fit', () => {
    expect(fit.converged).toBe(true);
    herds.coefficients.forEach((value, k) => {
      expect(fit.coefficients[k]).toBeCloseTo(value, 4);
      // The reference takes its Hessian from differences too.
      expect(Math.sqrt(fit.covariance[k * 5]!)).toBeCloseTo(herds.errors[k]!, 3);
    });
    expect(fit.spread).toBeCloseTo(herds.spread, 4);
    herds.modes.forEach((value, k) => {
      expect(fit.modes[k]).toBeCloseTo(value, 3);
    });
  });
});

describe('winter survival', () => {
  const winters = [2025, 2026, 2027, 2028, 2029, 2030];
  const minima = new Map(winters.map((winter, k) => [winter, [-8, -21, -14, -25, -11, -17][k]!]));
  /** Log-odds of survival at −16 °C by origin, 0.2 more for each degree warmer, genets scattering by 0.8. */
  const level: Record<string, number> = { north: 3, south: 1.5 };
  const garden = (seed: number): PlantWinter[] => {
    const random = seededRandom(seed);
    return Object.keys(level).flatMap((origin) =>
      Array.from({ length: 60 }, (_, k) => `${origin} ${k}`).flatMap((genet) => {
        const own = random.normal(0, 0.8);
        return [1, 2].flatMap((plant) => {
          const rows: PlantWinter[] = [];
          for (const winter of winters) {
            const odds = level[origin]! + own + 0.2 * (minima.get(winter)! + 16);
            const survived = random.uniform() < 1 / (1 + Math.exp(-odds));
            rows.push({
              plant: `${genet}/${plant}`,
              genet,
              origin,
              winter,
              minimum: minima.get(winter)!,
              first: winter === winters[0],
              survived,
            });
            if (!survived) break;
          }
          return rows;
        });
      }),
    );
  };

  it('finds what cold and origin do, as the garden was drawn', () => {
    const gardens = Array.from({ length: 20 }, (_, k) => winterSurvival(garden(k + 1)));
    const mean = (of: (one: WinterSurvival) => number) =>
      gardens.reduce((sum, one) => sum + of(one), 0) / gardens.length;
    // The odds of loss rise by e^0.2 with each degree; the mean of 20 gardens has a standard error of about 0.01.
    expect(mean(({ oddsPerDegree }) => Math.log(oddsPerDegree!.value))).toBeCloseTo(0.2, 1);
    const logOdds = (one: WinterSurvival, origin: string) => {
      const { chance } = one.origins.find((row) => row.origin === origin)!;
      return Math.log(chance / (1 - chance)) - 0.2 * (one.at! + 16);
    };
    expect(Math.abs(mean((one) => logOdds(one, 'north')) - 3)).toBeLessThan(0.25);
    expect(Math.abs(mean((one) => logOdds(one, 'south')) - 1.5)).toBeLessThan(0.25);
    const held = gardens.filter(
      ({ oddsPerDegree }) => oddsPerDegree!.low < Math.exp(0.2) && Math.exp(0.2) < oddsPerDegree!.high,
    ).length;
    // Of 20 ranges of 80%, at least 12 hold the truth with a chance of 99% (binomial).
    expect(held).toBeGreaterThanOrEqual(12);
  });

  it('gives a genet that lost plants less of a chance than one that kept them', () => {
    const { genets } = winterSurvival(garden(2));
    const south = genets.filter(({ id }) => id.startsWith('south'));
    const kept = south.filter(({ lost }) => lost === 0);
    const both = south.filter(({ lost }) => lost === 2);
    expect(Math.min(...kept.map(({ chance }) => chance))).toBeGreaterThan(
      Math.max(...both.map(({ chance }) => chance)),
    );
    for (const { low, chance, high } of genets) {
      expect(low).toBeLessThan(chance);
      expect(chance).toBeLessThan(high);
    }
  });

  it('draws the chance by cold: plants of all origins pass through the shares alive, an origin through its own', () => {
    const rows = garden(5);
    const { curves, origins, winters, at } = winterSurvival(rows);
    expect(curves.map(({ of, origin }) => origin ?? of)).toEqual([
      'later winters',
      'first winters',
      'north',
      'south',
    ]);
    for (const { points } of curves) {
      expect([points[0]!.minimum, points.at(-1)!.minimum]).toEqual([-25, -8]);
      points.slice(1).forEach(({ chance }, k) => {
        expect(chance).toBeGreaterThan(points[k]!.chance);
      });
      for (const { low, chance, high } of points) expect(low < chance && chance < high).toBe(true);
    }
    const along = ({ points }: (typeof curves)[number], minimum: number) =>
      points.reduce((a, b) => (Math.abs(b.minimum - minimum) < Math.abs(a.minimum - minimum) ? b : a)).chance;
    // Within three errors of a share and what a curve changes over half the way to its next point.
    const held = (stood: number, lost: number, chance: number) =>
      expect(Math.abs(1 - lost / stood - chance)).toBeLessThan(
        3 * Math.sqrt((chance * (1 - chance)) / stood) + 0.02,
      );
    for (const { minimum, stood, lost, first } of winters) {
      if (stood > first.stood) held(stood - first.stood, lost - first.lost, along(curves[0]!, minimum!));
      if (first.stood > 0) held(first.stood, first.lost, along(curves[1]!, minimum!));
    }
    for (const { origin, chance } of origins) {
      const own = curves.find((curve) => curve.origin === origin)!;
      expect(Math.abs(along(own, at!) - chance)).toBeLessThan(0.02);
    }
    const noFirst = winterSurvival(rows.map((row) => ({ ...row, first: false })));
    expect(noFirst.curves[0]!.of).toBe('all winters');
  });

  it('gives genets of one origin one chance where they do not differ beyond chance', () => {
    // Each genet loses one of its plants: less scatter than chance alone would make.
    const rows = garden(6).map((row, k) => ({ ...row, survived: k % 9 !== 0 }));
    const { genetsDiffer, genets, origins } = winterSurvival(rows);
    expect(genetsDiffer).toBe(false);
    for (const { origin, chance } of genets)
      expect(chance).toBe(origins.find((one) => one.origin === origin)!.chance);
  });

  it('says temperatures as the programme speaks', () => {
    const rows = garden(3);
    const { at } = winterSurvival(rows);
    expect(winterSurvival(rows, 'us').words[0]).toContain(
      `chances are for ${((at! * 9) / 5 + 32).toFixed(1).replace('-', '−')} °F`,
    );
  });

  it('says what could not be told', () => {
    const rows = garden(3);
    expect(winterSurvival(rows.slice(0, 12))).toMatchObject({
      at: null,
      genets: [],
      words: [expect.stringMatching(/too few to say what winters do\.$/)],
    });
    const noWeather = winterSurvival(rows.map((row) => ({ ...row, minimum: null, origin: null })));
    expect(noWeather.oddsPerDegree).toBeNull();
    expect(noWeather.words.slice(0, 3)).toEqual([
      'The lowest temperature is known of 0 winters only, so what cold does cannot be told. Weather records of the other winters would tell.',
      'The first winter after planting was taken into account; chances are for later ones.',
      'All plants are of one origin, or too few of any other, so origins cannot be compared.',
    ]);
  });

  it('keeps within reason for an origin that lost nothing', () => {
    const rows = garden(4).map((row) => (row.origin === 'north' ? { ...row, survived: true } : row));
    const north = winterSurvival(rows).origins.find(({ origin }) => origin === 'north')!;
    expect(north.lost).toBe(0);
    expect(north.chance).toBeGreaterThan(0.9);
    expect(north.low).toBeGreaterThan(0.5);
    expect(north.high).toBeLessThan(1);
  });
});
