import { describe, expect, it } from 'vitest';
import { seededRandom, solveSeveral, type TraitTable } from '../../src/index.ts';
import { additiveOf } from '../mixed/additive-of.ts';
import { parseTable } from '../mixed/tables.ts';

// source: example 5.1 of R. A. Mrode (2014), Linear Models for the Prediction of Animal Breeding Values, 3rd ed., CABI: gains
// before and after weaning of five calves. Data and covariance matrices as recalled from there (from memory), solutions
// recomputed densely and equal to those remembered from the book.

const CALVES = parseTable(`animal,sex,pre,post
4,male,4.5,6.8
5,female,2.9,5.0
6,female,3.9,6.8
7,male,3.5,6.0
8,male,5.0,7.5`);

const COVARIANCE = [
  [1, 0, 0, 0.5, 0, 0.5, 0.25, 0.25],
  [0, 1, 0, 0, 0.5, 0.5, 0.25, 0.25],
  [0, 0, 1, 0, 0.5, 0, 0.25, 0.5],
  [0.5, 0, 0, 1, 0, 0.25, 0.5, 0.125],
  [0, 0.5, 0.5, 0, 1, 0.25, 0.5, 0.375],
  [0.5, 0.5, 0, 0.25, 0.25, 1, 0.25, 0.5],
  [0.25, 0.25, 0.25, 0.5, 0.5, 0.25, 1, 0.25],
  [0.25, 0.25, 0.5, 0.125, 0.375, 0.5, 0.25, 1],
];
const PRE = [4.360866999054439, 3.397261591904331, 0.15091556731279288, -0.01539250969148065];
PRE.push(-0.0783918961641874, -0.010238958529292352, -0.2703314413892317, 0.27580825758057403);
PRE.push(-0.31611756163943294, 0.24375552300540404);
const POST = [6.799897620385031, 5.880295937282163, 0.2795979727448725, -0.007610070819897841];
POST.push(-0.17034143859393813, -0.012670708624116234, -0.47783026160272035, 0.5172383870383879);
POST.push(-0.47898369505507876, 0.39196154252409166);

const additive = additiveOf('animal', COVARIANCE);
const trait = (name: string): TraitTable => ({
  name,
  table: CALVES,
  model: { response: name, fixed: ['sex'], random: [], additive },
  occasion: 'animal',
});
const matrices = new Map([
  ['additive', Float64Array.of(20, 18, 18, 40)],
  ['residual', Float64Array.of(40, 11, 11, 30)],
]);

describe('two traits with covariances held: the worked example', () => {
  const solved = solveSeveral([trait('pre'), trait('post')], matrices, ['additive']);
  const female = [{ term: 'intercept', level: null, weight: 1 }];
  const male = [...female, { term: 'sex', level: 'male', weight: 1 }];

  it('has its solutions', () => {
    const atMale = solved.combine([male, male]).estimates;
    const atFemale = solved.combine([female, female]).estimates;
    [PRE, POST].forEach((expected, t) => {
      expect(atMale[t]!).toBeCloseTo(expected[0]!, 9);
      expect(atFemale[t]!).toBeCloseTo(expected[1]!, 9);
    });
    const { levels, estimates } = solved.sumsOfLevels(['additive']);
    expect(levels).toEqual(['1', '2', '3', '4', '5', '6', '7', '8']);
    levels.forEach((_, i) => {
      expect(estimates[2 * i]!).toBeCloseTo(PRE[i + 2]!, 9);
      expect(estimates[2 * i + 1]!).toBeCloseTo(POST[i + 2]!, 9);
    });
  });

  it('draws effects about these solutions with the errors that are told', () => {
    const sums = solved.sumsOfLevels(['additive'], [male, female]);
    const random = seededRandom(8);
    const draws = Array.from({ length: 4000 }, () => sums.draw(random));
    const mean = (of: (draw: Float64Array) => number) =>
      draws.reduce((total, draw) => total + of(draw), 0) / draws.length;
    for (const i of [0, 7]) {
      const [a, b] = [2 * i, 2 * i + 1];
      const [ma, mb] = [mean((draw) => draw[a]!), mean((draw) => draw[b]!)];
      const error = sums.covariances.subarray(4 * i, 4 * i + 4);
      expect(Math.abs(ma - sums.estimates[a]!)).toBeLessThan((4 * Math.sqrt(error[0]!)) / 63);
      expect(Math.abs(mb - sums.estimates[b]!)).toBeLessThan((4 * Math.sqrt(error[3]!)) / 63);
      const drawn = mean((draw) => (draw[a]! - ma) * (draw[b]! - mb));
      expect(Math.abs(drawn - error[1]!)).toBeLessThan((6 * Math.sqrt(error[0]! * error[3]!)) / 63);
    }
  });

  it('refuses matrices that are missing, not positive definite or of a trait too few', () => {
    const both = [trait('pre'), trait('post')];
    const broken = new Map([...matrices, ['additive', Float64Array.of(20, 40, 40, 40)]]);
    expect(() => solveSeveral(both, broken, [])).toThrow(
      'the covariance matrix of "additive" is not positive definite among "pre", "post"',
    );
    expect(() => solveSeveral(both, new Map([...matrices].slice(0, 1)), [])).toThrow(
      '"residual" has no covariance matrix of 2 × 2 traits',
    );
    expect(() => solved.combine([male])).toThrow('1 sums were given for 2 traits');
    expect(() => solved.sumsOfLevels(['genet'])).toThrow('no trait has a random term "genet"');
    const unnamed = { ...trait('pre'), occasion: 'day' };
    expect(() => solveSeveral([unnamed, trait('post')], matrices, [])).toThrow(
      'the rows of "pre" have no column "day" for the occasion',
    );
  });
});
