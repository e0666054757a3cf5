import { describe, expect, test } from 'vitest';
import {
  choiceAsUse,
  choiceOf,
  codeFrom,
  fieldsWithoutColumn,
  unitInHeader,
} from '../../src/import/column-use.ts';
import { problemsCsv } from '../../src/import/problems-csv.ts';

describe('what a column holds', () => {
  test('every use goes into a choice and comes back as it was', () => {
    for (const use of [null, { field: 'plant' }, { trait: 'spike-length' }, { year: true } as const]) {
      expect(choiceAsUse(choiceOf(use), 'any')).toEqual(use);
    }
  });
  test('a new trait takes its name and unit from the header', () => {
    expect(choiceAsUse('new', 'Spike length (cm)')).toEqual({
      trait: 'spike-length',
      newTrait: { name: 'Spike length', sort: 'measured', unit: 'cm' },
    });
    expect(unitInHeader('Höhe [m]')).toEqual({ name: 'Höhe', unit: 'm' });
    expect(unitInHeader('Spikes')).toEqual({ name: 'Spikes', unit: null });
    expect(codeFrom('  Länge, 1. Ähre ')).not.toMatch(/^-|-$|[ ,.]/);
  });
  test('what notes need and no column gives is asked for; a year stands for a day', () => {
    const columns = [{ field: 'plant' }, { trait: 'spikes' }];
    expect(fieldsWithoutColumn('notes', { kind: 'notes', columns })).toEqual(['on']);
    expect(fieldsWithoutColumn('notes', { kind: 'notes', columns: [...columns, { year: true }] })).toEqual(
      [],
    );
  });
});

describe('the list of problems as a file', () => {
  test('cells with commas and quotes are quoted, formulas made harmless', () => {
    const csv = problemsCsv([{ row: 4, column: 'Date, day', problem: '“x” is "no" date', remedy: '=1+1' }]);
    expect(csv).toBe(`row,column,problem,remedy\r\n4,"Date, day","“x” is ""no"" date",'=1+1\r\n`);
  });
});
