import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { kinshipOf } from '../../src/pedigree/index.ts';
import { writtenOut } from './support/dense.ts';
import { entriesOf } from './support/written-rows.ts';

interface Case {
  readonly name: string;
  readonly source: string;
  readonly rows: readonly (readonly string[])[];
  readonly relationships?: readonly (readonly number[])[];
  readonly inbreeding?: readonly number[];
  readonly mendelian?: readonly number[];
  readonly inverse?: readonly (readonly number[])[];
}

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`./fixtures/${name}.json`, import.meta.url), 'utf8'));
const cases: readonly Case[] = read('published-pedigrees');
const sibs: { readonly source: string; readonly rows: readonly [number, number, number, number][] } =
  read('open-pollinated-sibs');

describe('published pedigrees', () => {
  it.each(cases.map((one) => [one.name, one] as const))('%s', (_, { source, ...one }) => {
    const entries = entriesOf(one.rows);
    const kinship = kinshipOf(entries);
    one.relationships?.forEach((row, i) => {
      expect(kinship.inbreeding[i], source).toBeCloseTo(row[i]! - 1, 12);
      row.forEach((a, j) => {
        expect(kinship.relationship(entries[i]!.genet, entries[j]!.genet), source).toBeCloseTo(a, 12);
      });
    });
    one.inbreeding?.forEach((f, i) => {
      expect(kinship.inbreeding[i], source).toBeCloseTo(f, 12);
    });
    one.mendelian?.forEach((m, i) => {
      expect(kinship.mendelian[i], source).toBeCloseTo(m, 12);
    });
    const inverse = writtenOut(kinship.inverse);
    one.inverse?.forEach((row, i) => {
      row.forEach((value, j) => {
        const found = inverse[kinship.equations[i]!]![kinship.equations[j]!];
        expect(found, source).toBeCloseTo(value, 11);
      });
    });
  });

  // source: the fixture. A chance r that two sibs share a father is that of 1/r fathers, each as likely.
  it.each(sibs.rows)('open-pollinated sibs: selfs %d, shared father %d', (s, r, relationship, own) => {
    const fathers = r === 0 ? 0 : Math.round(1 / r);
    const names = Array.from({ length: fathers }, (_, k) => `father ${k}`);
    const pollen = [
      ...(s > 0 ? [`self:${s}`] : []),
      ...(s < 1 ? names.map((name) => `${name}:${(1 - s) / fathers}`) : []),
    ].join(';');
    const kinship = kinshipOf(
      entriesOf([
        ['sib', 'mother', pollen],
        ['other sib', 'mother', pollen],
        ['mother', '', ''],
        ...names.map((name) => [name, '', '']),
      ]),
    );
    // Printed to five digits; halves were rounded either way.
    expect(Math.abs(kinship.relationship('sib', 'other sib') - relationship)).toBeLessThan(5.001e-6);
    expect(kinship.inbreeding[0]).toBeCloseTo(own - 1, 12);
  });
});

// source: by definition, and the design's words on crosses between species.
describe('founders of two species, each nearly fixed for its own genes', () => {
  it('give a uniform first generation and a second that scatters', () => {
    const gamma = 1.98;
    const founders = ['blue', 'white'].flatMap((group) =>
      [1, 2].map((k) => ({
        genet: `${group} ${k}`,
        seedParents: [],
        pollenParents: [],
        cloneOf: null,
        group,
      })),
    );
    const crosses = entriesOf([
      ['f1', 'blue 1', 'white 1'],
      ['f2', 'f1', 'self'],
      ['back', 'f1', 'blue 2'],
    ]);
    const { mendelian } = kinshipOf([...founders, ...crosses], { within: gamma });
    const [own, f1, f2, back] = [mendelian[0]!, mendelian[4]!, mendelian[5]!, mendelian[6]!];
    expect(own).toBeCloseTo(1 - gamma / 2, 12);
    expect(f1).toBeCloseTo(1 - 0.5 * (1 + gamma / 2), 12);
    expect(f2).toBeCloseTo(0.5, 12);
    expect(back).toBeCloseTo(1 - 0.25 - 0.25 * (1 + gamma / 2), 12);
    expect(f1).toBeLessThan(0.02 * f2);
  });
});
