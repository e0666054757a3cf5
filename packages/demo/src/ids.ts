import type { Random } from '@keelrow/quant';
import type { Day } from './calendar.ts';

const hex = (number: number, digits: number): string => number.toString(16).padStart(digits, '0');

/**
 * An id of the shape of a UUIDv7 (RFC 9562, section 5.7) whose time is a moment of the given day and whose other
 * bits come from the seeded stream, so that the same garden has the same ids.
 */
export function factId(random: Random, day: Day): string {
  const time = day * 86_400_000 + random.integer(86_400_000);
  const high = Math.floor(time / 0x10000);
  const [a, b, c] = [random.integer(0x1000), random.integer(0x4000), random.integer(0x100000000)];
  const d = random.integer(0x10000);
  return `${hex(high, 8)}-${hex(time % 0x10000, 4)}-7${hex(a, 3)}-${hex(0x8000 | b, 4)}-${hex(c, 8)}${hex(d, 4)}`;
}
