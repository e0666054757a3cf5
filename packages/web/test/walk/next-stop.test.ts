import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isAnswered, wasDead } from '../../src/walk/order/answered.ts';
import { arriveAt, nextStop, plantBeside, progress, type Walk } from '../../src/walk/order/next-stop.ts';

const walkOf = (plants: number, traits: number, done: Set<string>): Walk => ({
  plants: Array.from({ length: plants }, (_, index) => `p${index}`),
  traits: Array.from({ length: traits }, (_, index) => `t${index}`),
  isDone: (plant, trait) => done.has(`${plant} ${trait}`),
});

test('trait after trait, then plant after plant; what is done is passed', () => {
  const walk = walkOf(3, 2, new Set(['p0 t1', 'p1 t0', 'p1 t1']));
  expect(nextStop(walk, null)).toEqual({ plant: 'p0', trait: 't0' });
  expect(nextStop(walk, { plant: 'p0', trait: 't0' }, { plant: 'p0', trait: 't0' })).toEqual({
    plant: 'p2',
    trait: 't0',
  });
  expect(
    nextStop(walk, { plant: 'p2', trait: 't0' }, { plant: 'p2', trait: 't0', wholePlant: true }),
  ).toBeNull();
  expect(plantBeside(walk, 'p0', 1)).toEqual({ plant: 'p1', trait: 't0' });
  expect(plantBeside(walk, 'p0', -1)).toBeNull();
  expect(arriveAt(walk, 'p0')).toEqual({ plant: 'p0', trait: 't0' });
  expect(progress(walk)).toEqual({ done: 1, of: 3 });
});

test('entering at every stop walks each open one exactly once, in order, and ends', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 12 }),
      fc.integer({ min: 1, max: 5 }),
      fc.array(fc.tuple(fc.nat(11), fc.nat(4)), { maxLength: 30 }),
      fc.boolean(),
      (plants, traits, before, lags) => {
        const done = new Set(before.map(([plant, trait]) => `p${plant} t${trait}`));
        const walk = walkOf(plants, traits, done);
        const open = walk.plants
          .flatMap((plant) => walk.traits.map((trait) => `${plant} ${trait}`))
          .filter((key) => !done.has(key));
        const walked: string[] = [];
        let late: string | null = null;
        for (let at = nextStop(walk, null); at && walked.length <= open.length; ) {
          const key = `${at.plant} ${at.trait}`;
          walked.push(key);
          // What was entered is told to the walk at once, or only a step later.
          if (late !== null) done.add(late);
          late = key;
          if (!lags) done.add(key);
          at = nextStop(walk, at, at);
        }
        expect(walked).toEqual(open);
      },
    ),
  );
});

test('a stop is done by a note of this walk, a stage by its day in the season, a plant by dead or missing', () => {
  const round = { since: '2031-05-20' };
  const count = { id: 'c', sort: 'counted' } as const;
  const stage = { id: 's', sort: 'staged' } as const;
  const note = (trait: string, on: string, state = 'seen') => ({ trait, on, state });
  expect(isAnswered(round, count, [note('c', '2031-05-19')])).toBe(false);
  expect(isAnswered(round, count, [note('c', '2031-05-20', 'not yet')])).toBe(true);
  expect(isAnswered(round, stage, [note('s', '2031-05-02')])).toBe(true);
  expect(isAnswered(round, stage, [note('s', '2031-05-02', 'not yet')])).toBe(false);
  expect(isAnswered(round, stage, [note('s', '2030-05-22')])).toBe(false);
  expect(isAnswered(round, count, [note('s', '2031-05-21', 'missing')])).toBe(true);
  expect(isAnswered(round, count, [note('s', '2031-05-01', 'missing')])).toBe(false);
});

test('a plant found dead before the walk is not walked to; one seen alive since then is', () => {
  const round = { since: '2031-05-20' };
  const dead = { trait: 'c', on: '2031-04-02', state: 'dead' };
  expect(wasDead(round, [dead])).toBe(true);
  expect(wasDead(round, [dead, { trait: 'c', on: '2031-04-20', state: 'seen' }])).toBe(false);
  expect(wasDead(round, [{ ...dead, on: '2031-05-20' }])).toBe(false);
  expect(wasDead(round, [])).toBe(false);
});
