import { describe, expect, test } from 'vitest';
import { readForm, toType } from '../../src/records/record-values.ts';

const today = '2031-05-20';

describe('a form of any kind', () => {
  test('only what was changed is stored', () => {
    const row = { id: 'x', code: 'A', name: 'Old', raised_in: 2028 };
    const before = toType('genets', row, 'metric');
    const { changed, problems } = readForm(
      'genets',
      { ...before, name: 'New' },
      before,
      row,
      today,
      'metric',
    );
    expect(changed).toEqual({ name: 'New' });
    expect(problems).toEqual([]);
  });
  test('an emptied box empties the field', () => {
    const row = { id: 'x', code: 'A', name: 'Old' };
    const before = toType('genets', row, 'metric');
    expect(readForm('genets', { ...before, name: '' }, before, row, today, 'metric').changed).toEqual({
      name: null,
    });
  });
  test('what is missing or unreadable is told by its field', () => {
    const { problems } = readForm('plants', { code: 'A/1', east_m: 'far' }, {}, {}, today, 'metric');
    expect(problems.map(({ field }) => field).sort()).toEqual(['east_m', 'genet']);
  });
  test('feet are stored as metres', () => {
    const typed = { code: 'b', sort: 'bed', length_m: '10' };
    expect(readForm('places', typed, {}, {}, today, 'us').changed.length_m).toBe(3.048);
  });
  test('possible parents are read with their chances', () => {
    const typed = { code: 'A', pollen_parent: 'B:0.6;self:0.2' };
    expect(readForm('genets', typed, {}, {}, today, 'metric').changed.pollen_parent).toEqual([
      { genet: 'B', chance: 0.6 },
      { genet: 'self', chance: 0.2 },
    ]);
  });
});
