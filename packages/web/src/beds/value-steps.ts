import { dayOfYear, isDate, keptAs } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import { type Measure, measureOf, type Units } from '../parts/measure.ts';
import { dayInWords, plainNumber } from '../parts/words.ts';

/** One step of values: its number as it stands in marks and legend, and its colour of the palette, 1 to 7. */
export interface Step {
  readonly number: number;
  readonly colour: number;
}
/** Values sorted into at most seven steps. */
export interface ValueSteps {
  readonly steps: readonly (Step & { readonly words: string })[];
  stepOf(value: number | string | null): Step | null;
}
export const colourOf = ({ colour }: Step): string => `var(--value-${colour})`;
/** Which ink is read on the step's colour; see the tokens. */
export const inkOn = ({ colour }: Step): string => (colour > 4 ? 'on-dark' : 'on-light');

const most = 7;

export function valueSteps(
  trait: TraitShown,
  values: readonly (number | string | null)[],
  units: Units,
): ValueSteps {
  return keptAs[trait.sort] === 'number' || keptAs[trait.sort] === 'date'
    ? stepsOfNumbers(trait, values, measureOf(trait.unit, units))
    : stepsOfWords(trait, values);
}

/** Days of the year for dates, numbers as they are; null for anything else. */
function asNumber(value: number | string | null): number | null {
  if (typeof value === 'number') return value;
  return typeof value === 'string' && isDate(value) ? dayOfYear(value) : null;
}

/** Equal widths on round limits, so that a step means the same length anywhere on the scale. */
function stepsOfNumbers(
  trait: TraitShown,
  values: readonly (number | string | null)[],
  measure: Measure,
): ValueSteps {
  const dates = keptAs[trait.sort] === 'date';
  const inShown = (value: number | string | null): number | null => {
    const number = asNumber(value);
    return number === null || dates ? number : measure.toShown(number);
  };
  const numbers = values.map(inShown).filter((number) => number !== null);
  if (numbers.length === 0) return { steps: [], stepOf: () => null };
  const [low, high] = [Math.min(...numbers), Math.max(...numbers)];
  const width = roundWidth((high - low) / most, dates || trait.sort === 'counted' || trait.sort === 'scored');
  const start = Math.floor(low / width) * width;
  const count = Math.min(most, Math.floor((high - start) / width) + 1);
  const shown = (number: number): string => (dates ? dayInWords(number) : plainNumber(number));
  const stepOf = (value: number | string | null): Step | null => {
    const number = inShown(value);
    return number === null
      ? null
      : spreadStep(Math.min(count - 1, Math.floor((number - start) / width)), count);
  };
  const whole = Number.isInteger(width) && (dates || trait.sort === 'counted' || trait.sort === 'scored');
  const unit = measure.unit && !dates ? ` ${measure.unit}` : '';
  return {
    steps: Array.from({ length: count }, (_, index) => {
      const [from, to] = [start + index * width, start + (index + 1) * width];
      const last = whole ? to - 1 : to;
      return {
        ...spreadStep(index, count),
        words:
          last === from
            ? `${shown(from)}${unit}`
            : `${shown(from)} to ${whole ? '' : 'below '}${shown(last)}${unit}`,
      };
    }),
    stepOf,
  };
}

function stepsOfWords(trait: TraitShown, values: readonly (number | string | null)[]): ValueSteps {
  const found = [...new Set(values.filter((value): value is string => typeof value === 'string'))];
  const words = (trait.classes.length > 0 ? [...trait.classes] : found.sort()).slice(0, most);
  return {
    steps: words.map((word, index) => ({ ...spreadStep(index, words.length), words: word })),
    stepOf: (value) => {
      const index = words.indexOf(String(value));
      return index < 0 ? null : spreadStep(index, words.length);
    },
  };
}

/** Few steps use the palette's whole width. */
const spreadStep = (index: number, count: number): Step => ({
  number: index + 1,
  colour: count <= 1 ? 4 : 1 + Math.round((index * (most - 1)) / (count - 1)),
});

function roundWidth(width: number, whole: boolean): number {
  if (!(width > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(width));
  const round = [1, 2, 2.5, 5, 10]
    .map((factor) => factor * power)
    .find((step) => step >= width * (1 - 1e-9))!;
  return whole ? Math.max(1, Math.ceil(round)) : round;
}
