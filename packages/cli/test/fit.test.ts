import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type FitResult, fitTable, type Model } from '@keelrow/quant';
import { afterAll, describe, expect, it } from 'vitest';
import { runKeelrow } from '../../../tests/support/running-keelrow.ts';
import { readTable } from '../../quant/test/mixed/tables.ts';

// source: SOURCE.md beside each data file: published data, fitted with lme4 1.1-31 and checked by a dense calculation.
const cases = ['sleepstudy', 'penicillin', 'pastes', 'dyestuff', 'cake', 'oats', 'barley'];
const fixtures = fileURLToPath(new URL('../../quant/test/fixtures', import.meta.url));

interface Reference {
  readonly formula: string;
  readonly model: Model;
  readonly variances: readonly { readonly term: string; readonly estimate: number }[];
  readonly remlLogLikelihood: number;
  readonly effects: readonly (readonly [term: string, level: string, estimate: number, se: number])[];
}

/** The model as options of the command. */
function optionsOf({ response, fixed, random, numeric }: Model): string[] {
  const option = (name: string, terms: readonly string[] = []) =>
    terms.length > 0 ? [`--${name}`, terms.join(',')] : [];
  return [
    '--response',
    response,
    ...option('fixed', fixed),
    ...option('random', random),
    ...option('numeric', numeric),
  ];
}

async function fitted(file: string, options: readonly string[]): Promise<FitResult> {
  const { status, out, err } = await runKeelrow(['fit', file, ...options, '--json']);
  expect({ status, err }).toEqual({ status: 0, err: '' });
  return JSON.parse(out);
}

/** Largest differences from the reference: variances as shares, effects and errors as shares of the effects' spread. */
function differences(result: FitResult, reference: Reference) {
  const found = new Map(result.effects.map((effect) => [`${effect.term} ${effect.level}`, effect]));
  const estimates = reference.effects.map(([, , estimate]) => estimate);
  const spread = Math.max(...estimates) - Math.min(...estimates);
  const largest = (of: (own: FitResult['effects'][number], estimate: number, se: number) => number) =>
    Math.max(
      ...reference.effects.map(([term, level, estimate, se]) =>
        Math.abs(of(found.get(`${term} ${level}`)!, estimate, se) / spread),
      ),
    );
  return {
    variances: Math.max(
      ...reference.variances.map(({ term, estimate }) =>
        Math.abs(result.variances.find((own) => own.term === term)!.estimate / estimate - 1),
      ),
    ),
    logLikelihood: Math.abs(result.remlLogLikelihood - reference.remlLogLikelihood),
    effects: largest((own, estimate) => own.estimate - estimate),
    errors: largest((own, _, se) => own.se - se),
  };
}

describe('keelrow fit on open data', () => {
  const table: string[] = [];
  afterAll(() => {
    console.log(
      [
        '| data | model | variances | log-likelihood | effects | errors |',
        '| --- | --- | --- | --- | --- | --- |',
        ...table,
      ].join('\n'),
    );
  });

  describe.each(cases)('%s', (name) => {
    const file = join(fixtures, name, 'data.csv');
    const { models } = JSON.parse(readFileSync(join(fixtures, name, 'expected.json'), 'utf8')) as {
      models: readonly Reference[];
    };
    it.each(models)('equals lme4 for $formula', async (reference) => {
      const result = await fitted(file, optionsOf(reference.model));
      const off = differences(result, reference);
      table.push(
        `| ${name} | \`${reference.formula.replace(/\s+/g, ' ').replaceAll('|', '\\|')}\` | ${[off.variances, off.logLikelihood, off.effects, off.errors].map((value) => value.toExponential(0)).join(' | ')} |`,
      );
      // What the issue of the house asks: 1e-4 throughout.
      for (const [what, value] of Object.entries(off)) expect(value, what).toBeLessThan(1e-4);
    });
  });
});

describe('keelrow fit', () => {
  const sleep = join(fixtures, 'sleepstudy/data.csv');
  const options = ['--response', 'Reaction', '--fixed', 'Days', '--numeric', 'Days', '--random', 'Subject'];
  const folder = mkdtempSync(join(tmpdir(), 'keelrow-fit-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  const fileOf = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };

  it('prints what the engine gives, in the shape of the contract', async () => {
    const result = await fitted(sleep, options);
    expect(result).toEqual(
      JSON.parse(
        JSON.stringify(
          fitTable(
            readTable(sleep),
            { response: 'Reaction', fixed: ['Days'], random: ['Subject'], numeric: ['Days'] },
            { observedInformation: true },
          ),
        ),
      ),
    );
    expect(Object.keys(result)).toEqual([
      'records',
      'omitted',
      'method',
      'converged',
      'iterations',
      'remlLogLikelihood',
      'fixed',
      'variances',
      'effects',
      'warnings',
    ]);
    // The contract's own example, rounded as printed there; its se of the variance is given to four figures.
    expect(result).toMatchObject({ records: 180, omitted: 0, method: 'REML', converged: true, warnings: [] });
    expect(result.remlLogLikelihood).toBeCloseTo(-893.2325, 4);
    expect(result.fixed[0]).toMatchObject({ term: 'intercept', level: null });
    expect(result.fixed[0]!.estimate).toBeCloseTo(251.405, 3);
    expect(result.fixed[0]!.se).toBeCloseTo(9.747, 3);
    expect(result.effects[0]).toMatchObject({ term: 'Subject', level: '308' });
    expect(result.effects[0]!.reliability).toBeCloseTo(0.883, 3);
  });

  it('holds variances where it is told to', async () => {
    const { variances } = await fitted(sleep, [...options, '--hold', 'Subject=1000,residual=900']);
    expect(variances).toEqual([
      { term: 'Subject', estimate: 1000, se: null },
      { term: 'residual', estimate: 900, se: null },
    ]);
  });

  it('counts rows left out for a missing cell', async () => {
    const file = fileOf('gap.csv', 'g;y\na;1.5\na;2.5\nb;\nb;4.5\nc;2\nc;3\n');
    expect(await fitted(file, ['--response', 'y', '--random', 'g'])).toMatchObject({
      records: 5,
      omitted: 1,
    });
  });

  it('prints tables for people', async () => {
    const { status, out } = await runKeelrow(['fit', sleep, ...options]);
    expect(status).toBe(0);
    expect(out).toMatch(/^180 records, REML, settled after \d+ rounds\nlog-likelihood -893\.2325\n/);
    expect(out).toMatch(/Subject +308 +40\.784 +12\.7 +0\.883/);
  });

  it.each([
    ['a word among numbers', 'g,y\na,1\nb,much\nb,2\n', ['--response', 'y'], { row: 3, column: 'y' }],
    ['a column that is not there', 'g,y\na,1\nb,2\n', ['--response', 'z'], { row: null, column: 'z' }],
  ])('refuses %s, with its place', async (_, text, wrong, where) => {
    const ran = await runKeelrow(['fit', fileOf('wrong.csv', text), ...wrong, '--json']);
    expect([ran.status, ran.out]).toEqual([2, '']);
    expect(JSON.parse(ran.err).error.where).toEqual(where);
  });

  it.each([
    ['residual', '“residual” after --hold is not of the form term=number'],
    ['residual=many', '“residual=many” after --hold is not of the form term=number'],
  ])('refuses --hold %s', async (held, words) => {
    const { status, err } = await runKeelrow(['fit', sleep, ...options, '--hold', held]);
    expect([status, err]).toEqual([2, `${words}\n`]);
  });
});
