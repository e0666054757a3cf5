import { describe, expect, test } from 'vitest';
import { moved } from '../../src/plants/moved.ts';
import { parentage } from '../../src/plants/plant-columns.tsx';
import { pagesFor } from '../../src/plants/plant-rows.ts';
import { readPlantsSearch, sortedBy } from '../../src/plants/plants-search.ts';

describe('a long list', () => {
  test('only the pages of the rows in sight are asked for', () => {
    expect(pagesFor(0, 40, 20_000)).toEqual([0]);
    expect(pagesFor(190, 230, 20_000)).toEqual([0, 1]);
    expect(pagesFor(19_990, 20_050, 20_000)).toEqual([99]);
  });
  test('keys walk the rows and stop at the ends', () => {
    expect(moved('ArrowDown', 3, 10, 5)).toBe(4);
    expect(moved('ArrowUp', 0, 10, 5)).toBe(0);
    expect(moved('PageDown', 7, 10, 5)).toBe(9);
    expect(moved('End', 0, 10, 5)).toBe(9);
    expect(moved('Enter', 0, 10, 5)).toBeNull();
    expect(moved('ArrowDown', 0, 0, 5)).toBeNull();
  });
});

describe('which plants are wanted', () => {
  test('anything may stand in an address; what means nothing is left out', () => {
    expect(readPlantsSearch({ search: 2027, sort: 'price', alive: 'maybe', descending: 'yes' })).toEqual({
      search: '2027',
    });
  });
  test('a column is sorted up, then down, then not', () => {
    const up = sortedBy({}, 'notes');
    const down = sortedBy(up, 'notes');
    expect([up, down, sortedBy(down, 'notes')]).toEqual([
      { sort: 'notes' },
      { sort: 'notes', descending: true },
      {},
    ]);
  });
});

test('parents are told as people say them', () => {
  expect(parentage({ seedParent: 'A', pollenParent: 'B' })).toBe('A × B');
  expect(parentage({ seedParent: 'A', pollenParent: 'self' })).toBe('A selfed');
  expect(parentage({ seedParent: 'A', pollenParent: '' })).toBe('A × unknown');
  expect(parentage({ seedParent: 'A', pollenParent: 'B:0.6;self:0.2' })).toBe('A × B 60% or self 20%');
  expect(parentage({ seedParent: '', pollenParent: '' })).toBe('');
});
