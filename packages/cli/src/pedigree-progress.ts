/** Work that ends within this time (in milliseconds) is not spoken of. */
const PATIENCE = 3000;
const BETWEEN_LINES = 60_000;
const BETWEEN_TURNS = 500;

interface Output {
  readonly isTTY?: boolean;
  write(text: string): unknown;
}

/**
 * Tells on standard error how far the kinship of a large pedigree is: once it has taken some seconds, a word on how long it
 * will take and how to stop it, then on a terminal one line written over and over, elsewhere a line each minute.
 *
 * @param output where to tell
 * @param now milliseconds of some clock
 */
export function pedigreeProgress(
  output: Output,
  now: () => number = () => performance.now(),
): (share: number) => void {
  let begun: number | null = null;
  let told: number | null = null;
  return (share) => {
    const time = now();
    begun ??= time;
    const elapsed = time - begun;
    if (told === null && (share >= 1 || elapsed < PATIENCE)) return;
    const left = span(share > 0 ? (elapsed / share) * (1 - share) : Number.NaN);
    if (told === null)
      output.write(
        `heed: so many plants are parents that their kinship takes long: ${left} at least, by the first ${Math.round(elapsed / 1000)} seconds; later generations go slower. Ctrl-C stops it; nothing is changed.\n`,
      );
    else if (share < 1 && time - told < (output.isTTY ? BETWEEN_TURNS : BETWEEN_LINES)) return;
    told = time;
    const line =
      share < 1 ? `${Math.floor(100 * share)}% of the kinship, about ${left} left` : 'kinship done';
    output.write(output.isTTY ? `\r${line.padEnd(60)}${share < 1 ? '' : '\n'}` : `${line}\n`);
  };
}

function span(milliseconds: number): string {
  const seconds = Math.max(1, Math.round(milliseconds / 1000));
  if (Number.isNaN(seconds)) return 'some time';
  if (seconds < 90) return `${seconds} ${seconds === 1 ? 'second' : 'seconds'}`;
  const minutes = Math.round(seconds / 60);
  return minutes < 90 ? `${minutes} minutes` : `${Math.round(minutes / 6) / 10} hours`;
}
