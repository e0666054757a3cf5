import { describe, expect, test } from 'vitest';
import { uuid7 } from '../../src/api/uuid7.ts';

describe('ids', () => {
  test('the example of the standard', () => {
    // source: RFC 9562, appendix A.6: 2022-02-22 19:22:22 GMT, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F.
    const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    expect(uuid7(0x017f22e279b0, random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  });
  test('later ids sort after earlier ones', () => {
    const random = new Uint8Array(10).fill(255);
    expect(uuid7(1_900_000_000_000, random) < uuid7(1_900_000_000_001, new Uint8Array(10))).toBe(true);
  });
});
