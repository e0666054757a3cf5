import { isDate, keptAs, measureOf, type ProgrammeSettings } from '@keelrow/breeding/facts';
import { labelPayload, layOutRound, type PaperName, type RoundPage } from '@keelrow/breeding/labels';
import type { NoteGrid, RoundSheet, TraitShown } from '@keelrow/records';
import { RefusedError } from '../refusals.ts';
import { measureText } from './faces.ts';
import { qrModules } from './label-pages.ts';

/** Draws the pages of a round sheet, in the programme's units; refuses, in words, what cannot be printed. */
export function roundPages(
  sheet: RoundSheet,
  grid: NoteGrid,
  settings: ProgrammeSettings,
  paper: PaperName,
): RoundPage[] {
  const { place } = grid;
  const round = {
    number: sheet.code,
    garden: settings.name,
    bed: place
      ? place.name && place.name !== place.code
        ? `${place.code} ${place.name}`
        : place.code
      : 'All beds',
    traits: grid.traits.map((trait) => ({
      name: trait.name,
      unit: measureOf(trait.unit, settings.units).unit,
      classes: trait.classes,
      statesInWords: !['number', 'date', 'colour'].includes(keptAs[trait.sort]),
    })),
    rows: grid.rows.map((row) => ({
      code: row.plantCode,
      line: row.genetName ?? (row.genetCode === row.plantCode ? '' : row.genetCode),
      before: grid.traits.map((trait) => beforeOn(trait, row.before[trait.code], settings)),
    })),
  };
  try {
    return layOutRound(round, qrModules(labelPayload(sheet.code)), paper, measureText);
  } catch (error) {
    if (error instanceof RangeError) throw new RefusedError(422, { problem: error.message });
    throw error;
  }
}

const dayAndMonth = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' });

/** `’30: 92`: a value of an earlier year without its unit, which stands above the column. */
function beforeOn(
  trait: TraitShown,
  before: { readonly year: number; readonly shown: string } | undefined,
  { units }: ProgrammeSettings,
): string {
  if (!before) return '';
  const year = `’${String(before.year).slice(2)}: `;
  const number =
    keptAs[trait.sort] === 'number' ? Number.parseFloat(before.shown.replace('−', '-')) : Number.NaN;
  if (isDate(before.shown)) return year + dayAndMonth.format(new Date(before.shown));
  if (Number.isNaN(number)) return year + before.shown;
  return year + String(Number(measureOf(trait.unit, units).toShown(number).toFixed(2)));
}
