import { type FitResult, fitTable, type Table } from '@keelrow/quant';
import { describe, expect, it } from 'vitest';
import { additiveTerm, kinshipOf } from '../../src/pedigree/index.ts';
import { entriesOf } from './support/written-rows.ts';

// source: R. A. Mrode 2014, Linear Models for the Prediction of Animal Breeding Values, 3rd ed., CABI, example 3.1, its
// sire model (section 3.4) and example 4.1. The book prints three decimals; the digits here were recomputed by an independent
// dense program. Rows of the pedigree stand upside down on purpose.
const tableOf = (header: string, ...rows: string[]): Table => {
  const cells = rows.map((row) => row.split(' '));
  return { columns: new Map(header.split(' ').map((name, k) => [name, cells.map((row) => row[k]!)])) };
};
const upsideDown = (...rows: string[]) =>
  kinshipOf(entriesOf(rows.reverse().map((row) => row.split(' ').map((cell) => cell.replace('-', '')))));

const effectsOf = (result: FitResult, term: string, levels: readonly string[]) =>
  levels.map((level) => result.effects.find((effect) => effect.term === term && effect.level === level)!);
const each = (first: number, last: number) =>
  Array.from({ length: last - first + 1 }, (_, k) => String(first + k));

function expectClose(found: readonly number[], expected: readonly number[], digits = 10): void {
  expect(found).toHaveLength(expected.length);
  found.forEach((value, k) => {
    expect(value).toBeCloseTo(expected[k]!, digits);
  });
}

const GAIN = tableOf('animal sex gain', '4 M 4.5', '5 F 2.9', '6 F 3.9', '7 M 3.5', '8 M 5.0');

describe('worked examples of the animal model', () => {
  it('gains before weaning: solutions, error variances and reliabilities (example 3.1)', () => {
    const kinship = upsideDown('1 - -', '2 - -', '3 - -', '4 - 1', '5 2 3', '6 2 1', '7 5 4', '8 6 3');
    const result = fitTable(GAIN, {
      response: 'gain',
      fixed: ['sex'],
      random: [],
      additive: additiveTerm(kinship, 'animal'),
      held: { additive: 20, residual: 40 },
    });
    const effects = effectsOf(result, 'additive', each(1, 8));
    const [female, male] = result.fixed.map(({ estimate }) => estimate);
    expectClose([female! + male!, female!], [4.358502329854959, 3.4044300059066743]);
    expectClose(
      effects.map(({ estimate }) => estimate),
      [
        0.09844457570387832, -0.018770099100872573, -0.04108420292708481, -0.008663122661941136,
        -0.1857320994946512, 0.17687208768130092, -0.24945855483362867, 0.18261468793069446,
      ],
    );
    expectClose(
      effects.map(({ se }) => se ** 2),
      [
        18.84376845835795, 19.68382883769771, 18.258351381505545, 17.10720614294153, 17.124269869396862,
        17.691310625451205, 17.674246898995865, 16.894565859421146,
      ],
    );
    expectClose(
      effects.map(({ reliability }) => reliability!),
      [
        0.057811577082102494, 0.0158085581151145, 0.08708243092472279, 0.14463969285292355,
        0.1437865065301569, 0.11543446872743979, 0.11628765505020677, 0.15527170702894266,
      ],
    );
    expect(result.remlLogLikelihood).toBeCloseTo(-9.65460464737663, 10);
  });

  it('the same gains by their sires (section 3.4)', () => {
    const sires = upsideDown('1 - -', '3 - -', '4 - 1');
    const table = tableOf('sire sex gain', '1 M 4.5', '3 F 2.9', '1 F 3.9', '4 M 3.5', '3 M 5.0');
    const result = fitTable(table, {
      response: 'gain',
      fixed: ['sex'],
      random: [],
      additive: additiveTerm(sires, 'sire'),
      held: { additive: 5, residual: 55 },
    });
    const [female, male] = result.fixed.map(({ estimate }) => estimate);
    expectClose([female! + male!, female!], [4.335671067106711, 3.3819856985698564]);
    expectClose(
      effectsOf(result, 'additive', ['1', '3', '4']).map(({ estimate }) => estimate),
      [0.022002200220021945, 0.01402640264026397, -0.043041804180418086],
    );
  });

  it('fat yield in two parities, with a permanent effect beyond the additive one (example 4.1)', () => {
    const kinship = upsideDown('1 - -', '2 - -', '3 - -', '4 2 1', '5 2 3', '6 5 1', '7 4 3', '8 7 1');
    const table = tableOf(
      'cow parity hys fat permanent',
      ...['4 1 1 201', '4 2 3 280', '5 1 1 150', '5 2 4 200', '6 1 2 160'].map((row) => `${row} ${row[0]}`),
      ...['6 2 3 190', '7 1 1 180', '7 2 3 250', '8 1 2 285', '8 2 4 300'].map((row) => `${row} ${row[0]}`),
    );
    const result = fitTable(table, {
      response: 'fat',
      fixed: ['parity', 'hys'],
      random: ['permanent'],
      additive: additiveTerm(kinship, 'cow'),
      held: { additive: 20, permanent: 12, residual: 28 },
    });
    expectClose(
      effectsOf(result, 'additive', each(1, 8)).map(({ estimate }) => estimate),
      [
        10.147570481016995, -3.0841529507880736, -7.063417530229144, 13.580743021645965, -18.206972447827845,
        -18.386781739552898, 9.328432422798622, 24.193618432540816,
      ],
      9,
    );
    expectClose(
      effectsOf(result, 'permanent', each(4, 8)).map(({ estimate }) => estimate),
      [8.416979301583455, -7.145576195094785, -17.22849690737687, -1.389646575871648, 17.346740376759897],
      9,
    );
  });
});
