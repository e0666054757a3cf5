import type { HeldPlant } from '@keelrow/server/contract';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeInWords } from '../../src/walk/order/place-in-words.ts';
import { rowsOfBed } from '../../src/walk/order/rows-of-bed.ts';
import { walkingOrder } from '../../src/walk/order/walking-order.ts';
import type { Direction } from '../../src/walk/rounds/round.ts';
import { heldPlant } from './walk-garden.ts';

/** A bed of rows, `A1` the first plant of the first row. */
const bed = (rows: number, inRow: number, unevenness = 0): HeldPlant[] =>
  Array.from({ length: rows * inRow }, (_, index) => {
    const [row, at] = [Math.floor(index / inRow), index % inRow];
    const code = `${'ABCDEFGH'[row]}${at + 1}`;
    const uneven = unevenness * (((index * 7) % 5) / 2 - 1);
    return heldPlant(code, { walk: index + 1, eastM: 0.3 + at * 0.6, northM: 0.3 + row * 0.5 + uneven });
  });
const codes = (plants: readonly HeldPlant[]): string => plants.map(({ code }) => code).join(' ');
const way = (how: Direction['way'], end: Direction['end'], side: Direction['side']): Direction => ({
  way: how,
  end,
  side,
});

describe('walking order', () => {
  test('by hand, three rows of three', () => {
    const plants = bed(3, 3);
    expect(codes(walkingOrder(plants, way('rows', 'first', 'first')))).toBe('A1 A2 A3 B1 B2 B3 C1 C2 C3');
    expect(codes(walkingOrder(plants, way('rows', 'last', 'first')))).toBe('A3 A2 A1 B3 B2 B1 C3 C2 C1');
    expect(codes(walkingOrder(plants, way('serpentine', 'first', 'first')))).toBe(
      'A1 A2 A3 B3 B2 B1 C1 C2 C3',
    );
    expect(codes(walkingOrder(plants, way('serpentine', 'last', 'first')))).toBe(
      'A3 A2 A1 B1 B2 B3 C3 C2 C1',
    );
    expect(codes(walkingOrder(plants, way('serpentine', 'first', 'last')))).toBe(
      'C1 C2 C3 B3 B2 B1 A1 A2 A3',
    );
    expect(codes(walkingOrder(plants, way('numbered', 'last', 'first')))).toBe('C3 C2 C1 B3 B2 B1 A3 A2 A1');
  });

  test('plants set a hand off the line still stand in their row', () => {
    expect(rowsOfBed(bed(4, 12, 0.08) as never).map((row) => row.length)).toEqual([12, 12, 12, 12]);
  });

  test('numbers without gaps in the record come first, plants without one last by code', () => {
    const plants = [
      heldPlant('9-10'),
      heldPlant('9-2'),
      heldPlant('x', { walk: 2 }),
      heldPlant('y', { walk: 1 }),
    ];
    expect(codes(walkingOrder(plants, way('numbered', 'first', 'first')))).toBe('y x 9-2 9-10');
    // One unmeasured plant: rows cannot be told.
    expect(codes(walkingOrder(plants, way('rows', 'first', 'first')))).toBe('y x 9-2 9-10');
  });

  const anyBed = fc
    .tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 15 }), fc.integer())
    .map(([rows, inRow, seed]) => {
      const plants = bed(rows, inRow, 0.05);
      return [...plants].sort((a, b) => ((a.walk! * 7919 + seed) % 101) - ((b.walk! * 7919 + seed) % 101));
    });
  const anyWay = fc.record({
    way: fc.constantFrom('numbered', 'rows', 'serpentine'),
    end: fc.constantFrom('first', 'last'),
    side: fc.constantFrom('first', 'last'),
  }) as fc.Arbitrary<Direction>;

  test('every plant is walked past once, whatever the way', () => {
    fc.assert(
      fc.property(anyBed, anyWay, (plants, direction) => {
        const order = walkingOrder(plants, direction);
        expect(order.map(({ id }) => id).sort()).toEqual(plants.map(({ id }) => id).sort());
      }),
    );
  });

  test('a serpentine walk goes from neighbour to neighbour, so it is never longer than row by row', () => {
    const length = (order: readonly HeldPlant[]): number =>
      order
        .slice(1)
        .reduce(
          (sum, plant, index) =>
            sum + Math.hypot(plant.eastM! - order[index]!.eastM!, plant.northM! - order[index]!.northM!),
          0,
        );
    fc.assert(
      fc.property(anyBed, anyWay, (plants, { end, side }) => {
        const serpentine = walkingOrder(plants, { way: 'serpentine', end, side });
        const rows = walkingOrder(plants, { way: 'rows', end, side });
        expect(length(serpentine)).toBeLessThanOrEqual(length(rows) + 1e-9);
        for (const [index, plant] of serpentine.slice(1).entries()) {
          const before = serpentine[index]!;
          expect(Math.hypot(plant.eastM! - before.eastM!, plant.northM! - before.northM!)).toBeLessThan(0.75);
        }
      }),
    );
  });
});

test('the place in words: row and position in it, and how far along, in the units of the programme', () => {
  const plants = bed(3, 12);
  const of = (code: string) => plants.find((plant) => plant.code === code)!;
  expect(placeInWords(of('B3'), plants, 'metric')).toBe('row 2, 3rd of 12, 1.5 m along');
  expect(placeInWords(of('C11'), plants, 'us')).toBe('row 3, 11th of 12, 20.7 ft along');
  expect(placeInWords(heldPlant('z', { walk: 4 }), [], 'metric')).toBe('no. 4');
  expect(placeInWords(heldPlant('z'), [], 'metric')).toBe('');
});
