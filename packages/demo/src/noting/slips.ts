import type { Random } from '@keelrow/quant';
import { storable } from '../scenario/traits.ts';

/**
 * A number as a slip of the pencil leaves it: a decimal point too far left or right, or two digits exchanged. Slips
 * outside the trait's limits would have been asked about at once, so they are not among the records: null.
 */
export function slipped(random: Random, trait: string, value: number, whole: boolean): number | null {
  const tries = random.shuffle([value * 10, value / 10, exchanged(value)]);
  for (const tried of tries) {
    const wrong = whole ? Math.round(tried) : Math.round(tried * 10) / 10;
    if (wrong !== value && storable(trait, wrong)) return wrong;
  }
  return null;
}

function exchanged(value: number): number {
  const digits = String(Math.round(value));
  if (digits.length < 2) return value;
  const at = digits.length - 2;
  return Number(digits.slice(0, at) + digits[at + 1]! + digits[at]!);
}
