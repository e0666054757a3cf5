import type { EstimatesReport, Family, GenetEstimate } from '@keelrow/server/contract';
import { expect, test } from 'vitest';
import { traitWriting } from '../../src/compare/trait-shown.ts';
import { layOutFamily } from '../../src/family/layout.ts';
import { memberEstimates } from '../../src/family/member-estimates.ts';

const member = (id: string, standsFor?: readonly string[]): Family['members'][number] => ({
  id,
  code: id,
  name: null,
  origin: null,
  generation: 0,
  alive: true,
  ...(standsFor ? { standsFor } : {}),
});
const family: Family = {
  self: 'child',
  members: [
    member('mother'),
    member('child'),
    member('many', ['many', 'second', 'third', 'unheard']),
    member('unknown'),
  ],
  links: [
    { parent: 'mother', child: 'child', side: 'seed', chance: 1 },
    { parent: 'child', child: 'many', side: 'seed', chance: 1 },
  ],
  more: { up: 0, down: 0 },
};
const of = (id: string, estimate: number): GenetEstimate =>
  ({ id, code: id, estimate, low: estimate - 2, high: estimate + 3, se: 2, notes: 1 }) as GenetEstimate;
const report = {
  trait: { code: 't', name: 'Spike length', sort: 'measured', unit: 'cm', wanted: null },
  estimates: [
    of('mother', 30),
    of('child', 40),
    of('many', 30),
    of('second', 36),
    of('third', 45),
    of('stranger', 200),
  ],
} as unknown as EstimatesReport;

test('members share one line; a member without estimate has none; strangers stay out', () => {
  const found = memberEstimates(family, report, traitWriting(report.trait, 'metric'));
  expect([...found.keys()]).toEqual(['mother', 'child', 'many']);
  const [mother, child] = [found.get('mother')!, found.get('child')!];
  expect(mother.at.low).toBeLessThan(mother.at.value);
  expect(mother.at.value).toBeLessThan(child.at.value);
  expect(child.at.high).toBeLessThan(1);
  expect(child).toMatchObject({ value: '40.0', range: '(38.0–43.0)', words: 'Spike length in cm' });
});

test('a box of many sibs has the mean of their estimates, from the least to the most of them', () => {
  const found = memberEstimates(family, report, traitWriting(report.trait, 'metric'));
  const [mother, many] = [found.get('mother')!, found.get('many')!];
  expect(many).toMatchObject({
    value: '37.0',
    range: '(30.0–45.0)',
    words: 'Spike length in cm, mean of 3 of 4 sibs and how far their estimates reach',
    ofSibs: true,
  });
  const alike = { ...report, estimates: [of('many', 30), of('second', 30), of('third', 30.01)] };
  expect(memberEstimates(family, alike, traitWriting(report.trait, 'metric')).get('many')).toMatchObject({
    range: '(all alike)',
    words: 'Spike length in cm, mean of 3 of 4 sibs',
  });
  expect(many.at.low).toBeCloseTo(mother.at.value, 12);
  const none = memberEstimates(family, { ...report, estimates: [] }, traitWriting(report.trait, 'metric'));
  expect(none.size).toBe(0);
});

test('taller boxes move rows apart by as much', () => {
  const [low, tall] = [layOutFamily(family), layOutFamily(family, 72)];
  const gap = (layout: typeof low) => layout.places.get('child')!.y - layout.places.get('mother')!.y;
  expect(gap(tall) - gap(low)).toBe(26);
  expect(tall.height - low.height).toBe(26 * 3);
});
