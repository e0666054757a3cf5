import type { Family, FamilyLink } from '@keelrow/server/contract';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boxHeight, boxWidth, layOutFamily } from '../../src/family/layout.ts';
import { ranksOf } from '../../src/family/ranks.ts';
import { walkTo } from '../../src/family/walk.ts';

const member = (id: string, generation = 0) => ({
  id,
  code: id,
  name: null,
  origin: null,
  generation,
  alive: true,
});
const link = (parent: string, child: string, side: FamilyLink['side'] = 'seed', chance = 1): FamilyLink => ({
  parent,
  child,
  side,
  chance,
});
const family = (ids: readonly string[], links: readonly FamilyLink[], self = ids[0]!): Family => ({
  self,
  members: ids.map((id) => member(id)),
  links,
  more: { up: 0, down: 0 },
});

/** Families of up to 40 in which links lead from older to younger members, of every side, in any order. */
const families = fc.integer({ min: 1, max: 40 }).chain((size) =>
  fc
    .record({
      self: fc.integer({ min: 0, max: size - 1 }),
      pairs: fc.array(
        fc.tuple(fc.nat(size - 1), fc.nat(size - 1), fc.constantFrom('seed', 'pollen', 'self', 'clone')),
        {
          maxLength: 60,
        },
      ),
      order: fc.shuffledSubarray(
        Array.from({ length: size }, (_, index) => index),
        { minLength: size, maxLength: size },
      ),
    })
    .map(({ self, pairs, order }) =>
      family(
        order.map((number) => `g${number}`),
        pairs
          .filter(([a, b]) => a !== b)
          .map(([a, b, side]) => link(`g${Math.min(a, b)}`, `g${Math.max(a, b)}`, side)),
        `g${self}`,
      ),
    ),
);

describe('a family drawn', () => {
  test('no two boxes touch, whatever the family', () => {
    fc.assert(
      fc.property(families, (drawn) => {
        const places = [...layOutFamily(drawn).places.values()];
        for (const [index, a] of places.entries()) {
          for (const b of places.slice(index + 1)) {
            const apart = Math.abs(a.x - b.x) >= boxWidth || Math.abs(a.y - b.y) >= boxHeight;
            expect(apart, `${JSON.stringify(a)} and ${JSON.stringify(b)}`).toBe(true);
          }
        }
      }),
      { seed: 20260520, numRuns: 300 },
    );
  });

  test('every parent stands above each of its children, and every line goes from the one to the other', () => {
    fc.assert(
      fc.property(families, (drawn) => {
        const { places, lines } = layOutFamily(drawn);
        for (const { parent, child } of drawn.links) {
          expect(places.get(parent)!.y).toBeLessThan(places.get(child)!.y);
        }
        for (const { link: drawnLink, points } of lines) {
          expect(points[0]!.y).toBe(places.get(drawnLink.parent)!.y + boxHeight / 2);
          expect(points.at(-1)!.y).toBe(places.get(drawnLink.child)!.y - boxHeight / 2);
        }
        expect(lines).toHaveLength(drawn.links.length);
      }),
      { seed: 20260521, numRuns: 300 },
    );
  });

  test('all of it lies within the drawing', () => {
    fc.assert(
      fc.property(families, (drawn) => {
        const { places, width, height } = layOutFamily(drawn);
        for (const { x, y } of places.values()) {
          expect(x - boxWidth / 2).toBeGreaterThanOrEqual(0);
          expect(x + boxWidth / 2).toBeLessThanOrEqual(width);
          expect(y - boxHeight / 2).toBeGreaterThanOrEqual(0);
          expect(y + boxHeight / 2).toBeLessThanOrEqual(height);
        }
      }),
      { seed: 20260522, numRuns: 200 },
    );
  });

  test('the seed parent stands to the left of the pollen parent, whichever is listed first', () => {
    const links = [link('p', 'x', 'pollen'), link('s', 'x', 'seed')];
    const { places } = layOutFamily(family(['x', 'p', 's'], links));
    expect(places.get('s')!.x).toBeLessThan(places.get('p')!.x);
  });

  test('a single child of two parents stands midway between them', () => {
    const { places } = layOutFamily(family(['x', 's', 'p'], [link('s', 'x'), link('p', 'x', 'pollen')]));
    expect(places.get('x')!.x).toBeCloseTo((places.get('s')!.x + places.get('p')!.x) / 2, 6);
  });
});

describe('ranks', () => {
  test('a backcross: the recurrent parent is drawn above the child that it had with its own child', () => {
    const ranks = ranksOf(
      ['bc', 'f1', 'a', 'b'],
      [link('a', 'f1'), link('b', 'f1'), link('f1', 'bc'), link('a', 'bc')],
      'bc',
    );
    expect(Object.fromEntries(ranks)).toEqual({ bc: 0, f1: -1, a: -2, b: -2 });
  });

  test('the other parent of a child is drawn beside the genet, not at the top', () => {
    const ranks = ranksOf(
      ['x', 'mother', 'grandmother', 'mate', 'child'],
      [link('grandmother', 'mother'), link('mother', 'x'), link('x', 'child'), link('mate', 'child')],
      'x',
    );
    expect(ranks.get('mate')).toBe(0);
    expect(ranks.get('child')).toBe(1);
  });

  test('a loop, which records refuse, does not hang the drawing', () => {
    const ranks = ranksOf(['a', 'b'], [link('a', 'b'), link('b', 'a')], 'a');
    expect(ranks.size).toBe(2);
  });
});

describe('walking the tree by keys', () => {
  const layout = layOutFamily(
    family(['x', 's', 'p', 'c'], [link('s', 'x'), link('p', 'x', 'pollen'), link('x', 'c')]),
  );
  test('up leads to a parent, down to a child, sideways within the row', () => {
    expect(['s', 'p']).toContain(walkTo(layout, 'x', 'ArrowUp'));
    expect(walkTo(layout, 'x', 'ArrowDown')).toBe('c');
    expect(walkTo(layout, 's', 'ArrowRight')).toBe('p');
    expect(walkTo(layout, 'p', 'ArrowLeft')).toBe('s');
  });
  test('where nobody stands there, or by another key, it leads nowhere', () => {
    expect(walkTo(layout, 'c', 'ArrowDown')).toBeNull();
    expect(walkTo(layout, 'x', 'Enter')).toBeNull();
  });
});
