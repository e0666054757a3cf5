/** How many best are asked for; null where that is no whole number from 1 to `most`. */
export function readBest(typed: string, most: number): number | null {
  const count = /^\d+$/.test(typed.trim()) ? Number(typed) : 0;
  return count >= 1 && count <= most ? count : null;
}

/** What the box takes, for those who wrote something else. */
export const bestWanted = (most: number): string =>
  `Write a whole number from 1 to ${most.toLocaleString('en-US')}, without decimals.`;
