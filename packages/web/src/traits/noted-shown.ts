import type { NoteResidual } from '@keelrow/server/contract';
import type { TraitWriting } from '../compare/trait-shown.ts';
import { dayInWords, plainNumber } from '../parts/words.ts';

/** What was noted, with its unit: `36 cm`, `20 May`. */
export const notedShown = ({ value, year }: NoteResidual, { isDay, toShown, unit }: TraitWriting): string =>
  isDay ? dayInWords(value, year) : `${plainNumber(toShown(value))}${unit ? ` ${unit}` : ''}`;
