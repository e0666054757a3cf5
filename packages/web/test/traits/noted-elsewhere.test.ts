import type { TraitShown } from '@keelrow/server/contract';
import { expect, test } from 'vitest';
import { elsewhereSentence, isNotedElsewhere } from '../../src/traits/noted-elsewhere.tsx';

const trait = (notes: number, notesElsewhere: TraitShown['notesElsewhere']): TraitShown =>
  ({ notes, notesElsewhere }) as TraitShown;

test('notes on seed lots and the like alone are told from no notes and from notes on plants', () => {
  expect(isNotedElsewhere(trait(0, []))).toBe(false);
  expect(isNotedElsewhere(trait(24, [{ on: 'seed-lots', notes: 23 }]))).toBe(false);
  const lots = trait(23, [{ on: 'seed-lots', notes: 23 }]);
  expect(isNotedElsewhere(lots)).toBe(true);
  expect(elsewhereSentence(lots)).toBe('Its 23 notes are on seed lots.');
  const both = trait(5, [
    { on: 'seed-lots', notes: 4 },
    { on: 'batches', notes: 1 },
  ]);
  expect(elsewhereSentence(both)).toBe('Its 5 notes are on seed lots (4) and batches (1).');
});
