import { describe, expect, it } from 'vitest';
import { type Profile, readProfile } from '../facts/profile.ts';
import { valueProblem } from '../facts/value.ts';
import falseIndigoFile from './false-indigo.json' with { type: 'json' };
import { shippedProfiles } from './index.ts';

function shipped(name: string): Profile {
  return shippedProfiles.find(({ profile }) => profile === name)!;
}
function trait(profile: Profile, code: string) {
  return profile.traits.find((each) => each.code === code)!;
}
const everyLine = (profile: Profile) => [
  ...profile.waysOfIncrease,
  ...profile.barriers,
  ...Object.values(profile.cautions).flat(),
];

describe('the shipped profiles', () => {
  it('are false indigo, garden lupin and a plain hardy perennial', () => {
    expect(shippedProfiles.map(({ profile }) => profile)).toEqual([
      'false-indigo',
      'garden-lupin',
      'hardy-perennial',
    ]);
  });

  it('are read by the same check as a breeder’s own file, which names what is wrong', () => {
    const broken = structuredClone(falseIndigoFile) as { traits: { sort: string }[] };
    broken.traits[0]!.sort = 'guessed';
    const read = readProfile(broken);
    expect('problems' in read && read.problems[0]).toMatch(/^traits › 0 › sort/);
  });

  // source: BBCH extended general scale, Hess and others 1997, Weed Research 37:433-441 (69 and 89 from memory).
  it.each(['false-indigo', 'garden-lupin', 'hardy-perennial'])(
    '%s has the five stages with BBCH codes',
    (name) => {
      const stages = shipped(name).traits.filter(({ sort }) => sort === 'staged');
      expect(stages.map(({ code, bbch }) => [code, bbch])).toEqual([
        ['emergence', 9],
        ['first-flower', 60],
        ['full-flower', 65],
        ['end-of-flower', 69],
        ['ripe-pods', 89],
      ]);
    },
  );

  it('say of every figure and line where it comes from', () => {
    for (const profile of shippedProfiles) {
      const sources = [...profile.traits, ...profile.usualLimits, ...everyLine(profile)].map(
        ({ source }) => source,
      );
      for (const source of sources) {
        expect(source).toMatch(/\b(1[89]|20)\d\d\b|common practice, no source|from memory|U\.S\. Fish|USDA/);
      }
    }
  });

  // source: common practice, no source: what goes wrong with labels in beds.
  it('all have a trait for what is wrong with a label, alike', () => {
    const labels = shippedProfiles.map((profile) => trait(profile, 'label'));
    expect(labels[0]).toMatchObject({ sort: 'classed', classes: ['lost', 'wrong', 'unreadable'] });
    expect(labels.slice(1)).toEqual([labels[0], labels[0]]);
  });

  it('give every number trait limits and every classed trait its classes', () => {
    for (const profile of shippedProfiles) {
      for (const each of profile.traits) {
        if (['measured', 'counted', 'scored'].includes(each.sort)) {
          expect([profile.profile, each.code, each.least! < each.most!]).toEqual([
            profile.profile,
            each.code,
            true,
          ]);
        }
      }
    }
  });
});

describe('false indigo', () => {
  const profile = shipped('false-indigo');

  // source: common practice, no source (a grown plant of the large blue species; the best seedlings; seeds).
  it.each([
    ['width', 150],
    ['height', 120],
    ['spike-count', 3],
    ['spike-count', 50],
    ['spike-count', 60],
    ['seed-length', 2],
    ['seed-length', 3],
  ])('takes %s of %d within its limits', (code, value) => {
    expect(valueProblem(trait(profile, code), value)).toBeNull();
  });

  it('calls a slipped decimal what it is', () => {
    expect(valueProblem(trait(profile, 'width'), 1500)).toMatch(/above the most/);
    expect(valueProblem(trait(profile, 'seed-length'), 25)).toMatch(/above the most/);
  });

  // source: genus-wide count x = 9, from memory.
  it('has 18 chromosomes', () => {
    expect(profile.chromosomes?.twoN).toEqual([18]);
  });

  // source: U.S. Fish and Wildlife Service, Hairy Rattleweed (Baptisia arachnifera) 5-Year Review; the day from memory.
  it('warns of a species listed as endangered in 1978, with the date of the list', () => {
    const line = profile.cautions.protection.find(({ text }) => text.includes('Baptisia arachnifera'));
    expect(line?.asOf?.slice(0, 4)).toBe('1978');
    expect(line?.text).toMatch(/endangered/);
  });

  // source: quinolizidine alkaloids in Baptisia and Lupinus, Wink 1993, from memory.
  it.each(['false-indigo', 'garden-lupin'])('%s warns of quinolizidine alkaloids', (name) => {
    expect(shipped(name).cautions.poison.some(({ text }) => text.includes('quinolizidine alkaloids'))).toBe(
      true,
    );
  });
});
