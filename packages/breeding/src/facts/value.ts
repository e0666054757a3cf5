import { isDate } from './dates.ts';
import type { Lab } from './field.ts';
import type { traitSorts } from './kinds/notes.ts';

export type TraitSort = (typeof traitSorts)[number];

/** What of a trait decides how its notes' values are read and checked. */
export interface TraitRule {
  readonly code: string;
  readonly name: string;
  readonly sort: TraitSort;
  readonly unit?: string | null;
  readonly least?: number | null;
  readonly most?: number | null;
  readonly classes?: readonly string[] | null;
}

export type NoteValue = number | string | Lab;

/** How a sort of trait is kept: as a number, a date, a word of a list, a colour, or free text. */
export const keptAs: Record<TraitSort, 'number' | 'date' | 'class' | 'colour' | 'text'> = {
  measured: 'number',
  counted: 'number',
  scored: 'number',
  staged: 'date',
  dated: 'date',
  classed: 'class',
  coloured: 'colour',
  pictured: 'text',
  spoken: 'text',
  written: 'text',
};

/** Whether notes of the trait can be put on a number line and so be estimated. */
export const isEstimable = (sort: TraitSort): boolean => keptAs[sort] === 'number' || keptAs[sort] === 'date';

export function readLab(text: string): Lab | null {
  const parts = text
    .trim()
    .split(/[\s;,]+/)
    .map(Number);
  if (parts.length !== 3 || parts.some((part) => !Number.isFinite(part))) return null;
  const [l, a, b] = parts as [number, number, number];
  return l >= 0 && l <= 100 && Math.abs(a) <= 200 && Math.abs(b) <= 200 ? { l, a, b } : null;
}

export const writeLab = ({ l, a, b }: Lab): string => `${l} ${a} ${b}`;

/**
 * What is wrong with a value for this trait, in words, with what would mend it; null if nothing is.
 * Limits are those of the trait, in its own unit.
 */
export function valueProblem(trait: TraitRule, value: NoteValue): string | null {
  const unit = trait.unit ? ` ${trait.unit}` : '';
  switch (keptAs[trait.sort]) {
    case 'number': {
      if (typeof value !== 'number' || !Number.isFinite(value))
        return `${trait.name} is a number${trait.unit ? ` in ${trait.unit}` : ''}`;
      if (trait.sort === 'counted' && (!Number.isInteger(value) || value < 0)) {
        return `${trait.name} is a count: a whole number, 0 or more; this is ${value}`;
      }
      if (trait.least != null && value < trait.least) {
        return `${value}${unit} is below the least for ${trait.name}, ${trait.least}${unit}; mend the value or the trait’s limit`;
      }
      if (trait.most != null && value > trait.most) {
        return `${value}${unit} is above the most for ${trait.name}, ${trait.most}${unit}; mend the value or the trait’s limit`;
      }
      return null;
    }
    case 'date':
      return typeof value === 'string' && isDate(value)
        ? null
        : `${trait.name} is a date, such as 2027-05-14`;
    case 'class': {
      const classes = trait.classes ?? [];
      if (typeof value === 'string' && classes.includes(value)) return null;
      return `“${String(value)}” is not a class of ${trait.name}; the classes are ${classes.join(', ')}`;
    }
    case 'colour':
      return typeof value === 'object' ? null : `${trait.name} is a colour in CIELAB, such as 45 5 -22`;
    case 'text':
      return typeof value === 'string' ? null : `${trait.name} is text`;
  }
}
