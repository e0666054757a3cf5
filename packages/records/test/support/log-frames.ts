/**
 * Where the transactions of a write-ahead log end, in bytes from its start.
 * source: SQLite, “Database File Format”, section 4.1: a header of 32 bytes with the page size at 8 and two salts at
 * 16; frames of a 24-byte header and a page; a frame that ends a transaction has a number at 4 of its header, others
 * zero; frames whose salts differ from the header's are left over from before and do not count.
 */
export function endsOfTransactions(log: Buffer): number[] {
  const pageSize = log.readUInt32BE(8);
  const salts = log.subarray(16, 24);
  const ends: number[] = [];
  for (let at = 32; at + 24 + pageSize <= log.length; at += 24 + pageSize) {
    if (!log.subarray(at + 8, at + 16).equals(salts)) break;
    if (log.readUInt32BE(at + 4) !== 0) ends.push(at + 24 + pageSize);
  }
  return ends;
}
