import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runKeelrow } from '../../../tests/support/running-keelrow.ts';
import { kinshipOfFile, readFounderKinship, readPedigreeFile } from '../src/read-pedigree.ts';
import { InputError } from '../src/telling.ts';

const folder = mkdtempSync(join(tmpdir(), 'keelrow-pedigree-'));
afterAll(() => rmSync(folder, { recursive: true }));
const write = (name: string, lines: readonly string[]): string => {
  const file = join(folder, name);
  writeFileSync(file, `${lines.join('\n')}\n`);
  return file;
};
const HEADER = 'genet,seed_parent,pollen_parent,clone_of';

describe('keelrow pedigree', () => {
  // source: Mrode 2014, Linear Models for the Prediction of Animal Breeding Values, 3rd edition, table 2.1 (rows turned
  // about; seed parent for dam, pollen parent for sire); the sport and the self are by definition.
  const family = write('family.csv', [
    HEADER,
    '6,2,5,',
    '5,3,4,',
    'sport,,,6',
    '4,,1,',
    '3,2,1,',
    '2,,,',
    '1,,,',
    'selfed,1,self,',
  ]);
  const pairs = write('pairs.csv', ['a,b', '3,5', 'sport,6', '6,4', 'selfed,1']);

  it('gives inbreeding and kinship as the contract has them', async () => {
    const { status, out, err } = await runKeelrow(['pedigree', family, '--pairs', pairs, '--json']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(JSON.parse(out)).toEqual({
      genets: [
        { genet: '6', inbreeding: 0.125 },
        { genet: '5', inbreeding: 0.125 },
        { genet: 'sport', inbreeding: 0.125 },
        { genet: '4', inbreeding: 0 },
        { genet: '3', inbreeding: 0 },
        { genet: '2', inbreeding: 0 },
        { genet: '1', inbreeding: 0 },
        { genet: 'selfed', inbreeding: 0.5 },
      ],
      pairs: [
        { a: '3', b: '5', coancestry: 0.3125, relationship: 0.625 },
        { a: 'sport', b: '6', coancestry: 0.5625, relationship: 1.125 },
        { a: '6', b: '4', coancestry: 0.15625, relationship: 0.3125 },
        { a: 'selfed', b: '1', coancestry: 0.5, relationship: 1 },
      ],
    });
  });

  it('prints for people too', async () => {
    const { status, out } = await runKeelrow(['pedigree', family, '--pairs', pairs]);
    expect(status).toBe(0);
    expect(out).toContain('8 genets, 2 of them founders, 4 inbred');
    expect(out).toMatch(/^selfed +0\.5$/m);
    expect(out).toMatch(/^3 +5 +0\.3125 +0\.625$/m);
  });

  it('reads chances, and takes parents without a row as founders, saying so', async () => {
    const file = write('open.csv', [HEADER, 'a,m,A:0.5;B:0.3,', 'b,m,A:0.5;self:0.5,', 'm,,,']);
    const asked = write('open-pairs.csv', ['a,b', 'a,A', 'a,b', 'b,m']);
    const { status, out, err } = await runKeelrow(['pedigree', file, '--pairs', asked, '--json']);
    expect(status).toBe(0);
    expect(err).toMatch(/2 genets are parents or sources without a row of their own .* founders: A, B/);
    const { genets, pairs: found } = JSON.parse(out);
    // source: rule of Henderson 1988 by hand: a_aA = ½·0.5; a_ab = ½·(½ + ½·½) + ½·0.5·½·0.5; a_bm = ½ + ½·½.
    expect(found.map(({ relationship }: { relationship: number }) => relationship)).toEqual([
      0.25, 0.4375, 0.75,
    ]);
    expect(genets[1]).toEqual({ genet: 'b', inbreeding: 0.25 });
  });

  it('takes founders of a group as kin where asked', async () => {
    const file = write('groups.csv', [
      'genet,seed_parent,pollen_parent,clone_of,group',
      'a,,,,blue',
      'b,,,,blue',
      'c,,,,white',
    ]);
    const asked = write('group-pairs.csv', ['a,b', 'a,b', 'a,c']);
    const args = ['pedigree', file, '--pairs', asked, '--json', '--founder-kinship'];
    const same = JSON.parse((await runKeelrow([...args, '0.5'])).out);
    expect(same.pairs.map(({ relationship }: { relationship: number }) => relationship)).toEqual([0.5, 0]);
    const apart = JSON.parse((await runKeelrow([...args, 'blue=1.2,white=0.4,blue*white=0.1'])).out);
    expect(apart.pairs.map(({ relationship }: { relationship: number }) => relationship)).toEqual([1.2, 0.1]);
    expect(apart.genets.map(({ inbreeding }: { inbreeding: number }) => inbreeding)).toEqual([0.6, 0.6, 0.2]);
  });

  it('says which founder groups change nothing', async () => {
    const file = write('idle.csv', [
      `${HEADER},group`,
      'a,,,,blue',
      'b,a,self,,blue',
      'c,a,a:0.4,,blue',
      'd,,,a,blue',
    ]);
    const bare = await runKeelrow(['pedigree', file]);
    expect(bare.err).toContain('rows 3 and 5: the group is left aside');
    expect(bare.err).toContain('--founder-kinship tells how near of kin they are');
    const asked = await runKeelrow(['pedigree', file, '--founder-kinship', '0.5']);
    expect(asked.err).not.toContain('--founder-kinship');
  });

  it.each([
    [
      'a loop',
      ['a,b,,', 'b,c,,', 'c,a,,'],
      ', rows 2, 3 and 4: a plant is its own ancestor: “a” ← “b” ← “c” ← “a”',
    ],
    ['a loop through a sport', ['a,,,b', 'b,a,,'], ', rows 2 and 3: a plant is its own ancestor'],
    ['a plant as its own parent', ['a,,,', 'b,a,b,'], ', row 3: “b” is its own parent'],
    [
      'chances above 1',
      ['a,,,', 'b,a,"c:0.7;d:0.4",'],
      ', row 3, column pollen_parent: the chances add up to 1.1',
    ],
    ['a chance of nothing', ['a,"b:0;c:0.4",,'], ', row 2, column seed_parent: the chance of “b” is 0'],
    ['a negative chance', ['a,b:-0.1,,'], ', row 2, column seed_parent: the chance of “b” is -0.1'],
    [
      'a chance that is no number',
      ['b,,,', 'a,b,b:some,'],
      ', row 3, column pollen_parent: “b:some” is neither a genet of this file nor',
    ],
    ['a clone of itself', ['a,,,', 'b,,,b'], ', row 3: “b” is a clone of itself'],
    ['a file of headers alone', [], ' names no genet'],
    ['a chance left out', ['a,"b;c:0.4",,'], ', row 2, column seed_parent: “b” stands among several'],
    [
      'a self as seed parent',
      ['a,self,,'],
      ', row 2, column seed_parent: “self” belongs under the pollen parent',
    ],
    ['a self of nobody', ['a,,self,'], ', row 2, column pollen_parent: “self” needs a seed parent'],
    ['a clone with parents', ['b,,,', 'a,b,,b'], ', row 3: “a” has parents and is a clone of “b” as well'],
    ['a genet twice', ['a,,,', 'b,,,', 'a,b,,'], ', rows 2 and 4: the genet “a” is listed twice'],
    ['a genet without a name', ['a,,,', ',a,,'], ', row 3, column genet: it is empty'],
  ])('refuses %s, with file and rows', async (name, lines, words) => {
    const file = write(`${name.replaceAll(' ', '-')}.csv`, [HEADER, ...lines]);
    const refusal = await readPedigreeFile(file)
      .then((entries) => kinshipOfFile(entries, file, undefined))
      .catch((error: unknown) => error);
    expect(refusal).toBeInstanceOf(InputError);
    expect((refusal as InputError).problem).toContain(`${file}${words}`);
    expect((refusal as InputError).remedy).toBeTruthy();
  });

  it('ends with status 2 for these, and prints nothing on standard output', async () => {
    const file = write('two-faults.csv', [HEADER, 'a,,,', 'b,a,"c:0.7;d:0.4",', 'e,,self,']);
    const { status, out, err } = await runKeelrow(['pedigree', file, '--json']);
    expect([status, out]).toEqual([2, '']);
    const { error } = JSON.parse(err);
    expect(error.problem).toContain(`${file}, row 3, column pollen_parent: the chances add up to 1.1`);
    expect(error.problem).toContain(`${file}, row 4, column pollen_parent: “self” needs a seed parent`);
  });

  it('refuses unknown genets of a pair, missing columns and kinships that cannot be', async () => {
    const asked = write('strangers.csv', ['a,b', '1,2', '1,nobody']);
    const strangers = await runKeelrow(['pedigree', family, '--pairs', asked]);
    expect([strangers.status, strangers.out]).toEqual([2, '']);
    expect(strangers.err).toContain(`${asked}, row 3, column b: “nobody” is not among the genets`);
    const other = await runKeelrow(['pedigree', write('other.csv', ['plant,mother', 'a,b'])]);
    expect(other.status).toBe(2);
    expect(other.err).toContain('there is no column genet');
    for (const text of ['much', 'blue=', '0.5,blue=1', '=1'])
      expect(() => readFounderKinship(text), text).toThrow(InputError);
    const grouped = await readPedigreeFile(join(folder, 'groups.csv'));
    const stranger = await runKeelrow([
      'pedigree',
      join(folder, 'groups.csv'),
      '--founder-kinship',
      'blue=0.5,zz=0.2',
    ]);
    expect([stranger.status, stranger.out]).toEqual([2, '']);
    expect(stranger.err).toContain('for the group “zz”, but no genet is of that group');
    expect(stranger.err).toContain('Its groups are “blue”, “white”');
    for (const [text, words] of [
      ['blue=0.5,blue*zz=0.1', 'for the group “zz”'],
      ['blue=0.5,blue*white=0.1', '“white” has none within'],
      ['blue=0.5,white=0.5,blue*blue=0.1', 'names “blue” twice'],
    ] as const)
      expect(() => kinshipOfFile(grouped, 'groups.csv', readFounderKinship(text)), text).toThrow(words);
    for (const text of ['2', 'blue=-1', 'blue=0.5,white=0.5,blue*white=0.9'])
      expect(() => kinshipOfFile(grouped, 'groups.csv', readFounderKinship(text)), text).toThrow(/kinship/);
  });
});

describe('keelrow fit with a pedigree', () => {
  // source: Mrode 2014, example 3.1: printed to three decimals, here recomputed to more (male 4.358502, printed 4.358).
  const data = write('growth.csv', ['g,sex,gain', '4,M,4.5', '5,F,2.9', '6,F,3.9', '7,M,3.5', '8,M,5.0']);
  const ancestry = write('growth-pedigree.csv', [
    HEADER,
    '8,6,3,',
    '7,5,4,',
    '6,2,1,',
    '5,2,3,',
    '4,,1,',
    ...['1', '2', '3'].map((genet) => `${genet},,,`),
    'sport,,,4',
  ]);
  const model = ['--response', 'gain', '--fixed', 'sex', '--hold', 'additive=20,residual=40'];

  it('names a held variance that leaves the residual nothing', async () => {
    const { status, out, err } = await runKeelrow([
      'fit',
      data,
      ...['--response', 'gain', '--fixed', 'sex', '--hold', 'additive=20'],
      ...['--pedigree', ancestry, '--additive', 'g'],
    ]);
    expect([status, out]).toEqual([2, '']);
    // source: by hand: squares about the means of the sexes 1.167 and 0.5, over 5 − 2 degrees of freedom: 0.5556.
    expect(err).toContain('"additive" is held at 20, and that leaves nothing for the residual');
    expect(err).toContain('vary by 0.5556 in all');
    expect(err).toContain('Hold the residual as well');
  });

  it('gives the textbook’s estimates of every genet of the pedigree, a sport its source’s', async () => {
    const { status, out } = await runKeelrow([
      'fit',
      data,
      ...model,
      '--pedigree',
      ancestry,
      '--additive',
      'g',
      '--json',
    ]);
    expect(status).toBe(0);
    const result = JSON.parse(out);
    const effects = Object.fromEntries(
      result.effects.map(({ level, estimate }: { level: string; estimate: number }) => [level, estimate]),
    );
    const printed = { 1: 0.098, 2: -0.019, 3: -0.041, 4: -0.009, 5: -0.186, 6: 0.177, 7: -0.249, 8: 0.183 };
    for (const [level, value] of Object.entries(printed)) expect(effects[level]).toBeCloseTo(value, 3);
    expect(effects.sport).toBe(effects['4']);
    expect(result.effects.map(({ term }: { term: string }) => term)).toEqual(new Array(9).fill('additive'));
    const fixed = Object.fromEntries(
      result.fixed.map(({ term, estimate }: { term: string; estimate: number }) => [term, estimate]),
    );
    expect(fixed.intercept).toBeCloseTo(3.404430006, 8);
    expect(fixed.intercept + fixed.sex).toBeCloseTo(4.35850233, 8);
  });

  it.each([
    [['--pedigree', ancestry], '--additive is missing'],
    [['--additive', 'g'], '--pedigree is missing'],
    [['--pedigree', join(folder, 'gone.csv'), '--additive', 'g'], 'There is no file gone.csv'],
    [['--pedigree', ancestry, '--additive', 'kind'], 'kind'],
    [
      ['--pedigree', write('short.csv', [HEADER, '4,,,', '5,,,', '6,,,', '7,,,']), '--additive', 'g'],
      'row 6, column g: "8" is not in',
    ],
  ])('refuses %j', async (options, words) => {
    const { status, out, err } = await runKeelrow(['fit', data, ...model, ...options]);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});
