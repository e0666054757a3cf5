/**
 * A UUID of version 7 (RFC 9562, section 5.7): 48 bits of milliseconds since 1970, then 74 random bits.
 * Facts get their id where they are made, so that one sent twice is stored once.
 */
export function uuid7(milliseconds: number, random: Uint8Array): string {
  const bytes = new Uint8Array(16);
  for (let i = 0; i < 6; i++) bytes[i] = Math.floor(milliseconds / 2 ** (8 * (5 - i))) % 256;
  bytes.set(random.subarray(0, 10), 6);
  bytes[6] = 0x70 | (bytes[6]! & 0x0f);
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

export const newId = (): string => uuid7(Date.now(), crypto.getRandomValues(new Uint8Array(10)));
