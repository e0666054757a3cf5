import { unitNamed } from '@keelrow/breeding/facts';
import { describe, expect, it } from 'vitest';
import { readYesNo, splitHeader } from '../../src/tables/index.ts';

// common practice, no source
describe('yes and no', () => {
  it.each(['yes', 'Y', 'TRUE', '1', 'x', '✓', 'ja', 'Oui'])('%s is yes', (text) => {
    expect(readYesNo(text)).toEqual({ ok: true, value: true });
  });
  it.each(['no', 'N', 'false', '0', 'nein', 'Non'])('%s is no', (text) => {
    expect(readYesNo(text)).toEqual({ ok: true, value: false });
  });
  it.each(['', 'perhaps', '2'])('%j is neither', (text) => {
    expect(readYesNo(text).ok).toBe(false);
  });
});

// common practice, no source
describe('units in column names', () => {
  it.each([
    ['Height (cm)', 'Height', 'cm'],
    ['height_cm', 'height', 'cm'],
    ['Height [in]', 'Height', 'in'],
    ['Height (in inches)', 'Height', 'in'],
    ['Temp °F', 'Temp', '°F'],
    ['tmin_c', 'tmin', '°C'],
    ['tmax_f', 'tmax', '°F'],
    ['Höhe in cm', 'Höhe', 'cm'],
    ['Height, cm', 'Height', 'cm'],
    ['Height / cm', 'Height', 'cm'],
    ['Germination %', 'Germination', '%'],
    ['Width (feet)', 'Width', 'ft'],
    ['Height · 2026 (cm)', 'Height · 2026', 'cm'],
  ])('%s', (header, name, unit) => {
    expect(splitHeader(header)).toEqual({ name, unit });
  });

  it.each([
    'Flower (1-9)',
    'Sown in',
    'seed_parent',
    'cm',
    'group_c',
    'Colour (banner)',
    'First day',
    'code',
  ])('%s has none', (header) => {
    expect(splitHeader(header)).toEqual({ name: header });
  });

  it('gives one symbol to all spellings', () => {
    expect(['in', 'inch', 'Inches', '"', '″', 'in.'].map(unitNamed)).toEqual(Array(6).fill('in'));
    expect(unitNamed('apples')).toBeNull();
  });
});
