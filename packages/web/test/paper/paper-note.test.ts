import type { NoteGrid, NoteGridRow, TraitShown } from '@keelrow/server/contract';
import { describe, expect, it } from 'vitest';
import { readLength, shownLength } from '../../src/labels/forms.ts';
import { emptyGrid, entered } from '../../src/notes/grid-state.ts';
import { boxShown, oddness, typedIn, type Walked } from '../../src/paper/paper-note.ts';
import { numberOf } from '../../src/paper/sheet-number.ts';

const height = {
  id: 't1',
  code: 'height',
  name: 'Height',
  sort: 'measured',
  unit: 'cm',
  least: 0,
  most: 300,
  classes: [],
} as unknown as TraitShown;
const walked: Walked = { on: '2031-05-20', today: '2031-06-01', units: 'metric', by: 'MK' };
const row = (plant: string, more: Partial<NoteGridRow> = {}): NoteGridRow => ({
  plant,
  plantCode: plant,
  genetCode: 'G',
  genetName: null,
  place: 'bed-4',
  walk: 1,
  cells: {},
  before: {},
  ...more,
});
const grid = (rows: NoteGridRow[]): NoteGrid => ({ place: null, traits: [height], year: 2031, rows });

describe('notes typed in from paper', () => {
  it('bear the sheet’s day and person', () => {
    const entry = typedIn(emptyGrid, row('a'), height, '92', walked);
    expect(entry?.note).toMatchObject({ plant: 'a', trait: 'height', on: '2031-05-20', value: 92, by: 'MK' });
    expect(typedIn(emptyGrid, row('a'), height, 'n', walked)?.note).toMatchObject({ state: 'not yet' });
    expect(typedIn(emptyGrid, row('a'), height, '', walked)).toBeNull();
    const wrong = typedIn(emptyGrid, row('a'), height, '920', walked);
    expect([wrong?.note, wrong?.typed]).toEqual([null, '920']);
    expect(wrong?.problem).toMatch(/300/);
  });

  it('replace a note of the same day, and stand beside one of another day of the year', () => {
    const cell = { id: 'n1', on: '2031-05-20', state: 'seen', value: 90, by: 'MK', count: 1 };
    const same = row('a', { cells: { height: cell } });
    expect(boxShown(emptyGrid, same, height, walked).text).toBe('90');
    expect(typedIn(emptyGrid, same, height, '90', walked)).toBeNull();
    const correction = typedIn(emptyGrid, same, height, '92', walked)!;
    expect(entered(emptyGrid, [correction]).cells.get(correction.key)?.note?.replaces).toBe('n1');
    const other = row('a', { cells: { height: { ...cell, on: '2031-04-02' } } });
    expect(boxShown(emptyGrid, other, height, walked).text).toBe('');
    const added = typedIn(emptyGrid, other, height, '92', walked)!;
    expect(entered(emptyGrid, [added]).cells.get(added.key)?.note).not.toHaveProperty('replaces');
    // Typed in from the sheet of another day before, in the same window.
    const state = entered(emptyGrid, [added]);
    expect(boxShown(state, other, height, { ...walked, on: '2031-05-27' }).text).toBe('');
  });

  it('can be set back to what was stored', () => {
    const cell = { id: 'n1', on: '2031-05-20', state: 'seen', value: 90, by: 'MK', count: 1 };
    const there = row('a', { cells: { height: cell } });
    const state = entered(emptyGrid, [typedIn(emptyGrid, there, height, '92', walked)!]);
    expect(typedIn(state, there, height, '90', walked)?.note).toMatchObject({ value: 90 });
  });

  it('are asked about where they are far from the plant’s earlier year', () => {
    const plant = row('a', { before: { height: { year: 2030, shown: '105 cm' } } });
    expect(oddness(emptyGrid, grid([plant]), plant, height, '12', walked)).toMatch(/2030.*105 cm/);
    expect(oddness(emptyGrid, grid([plant]), plant, height, '110', walked)).toBeNull();
    expect(oddness(emptyGrid, grid([plant]), plant, height, 'd', walked)).toBeNull();
  });
});

describe('numbers of sheets and lengths as they are typed', () => {
  it('are read with and without the check character', () => {
    // R26-07 has 4: reckoned by the check character's own test.
    for (const typed of ['R26-07', ' r26-07 ', 'R26-07 4', 'r26-074']) {
      expect(numberOf(typed).toUpperCase()).toBe('R26-07');
    }
    expect(numberOf('bed 4')).toBe('bed 4');
  });

  it('are millimetres or inches', () => {
    // source: the inch of 1959, 25.4 mm
    expect(readLength('2', 'us')).toBeCloseTo(50.8, 10);
    expect(readLength('2,5', 'metric')).toBe(2.5);
    expect(readLength('wide', 'metric')).toBeNull();
    expect(shownLength(50.8, 'us')).toBe('2');
    expect(readLength(shownLength(66.7, 'us'), 'us')).toBeCloseTo(66.7, 1);
  });
});
