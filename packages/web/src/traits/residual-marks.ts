import type { Step } from './residual-panels.ts';

/** Half the size of a mark against that of the largest, by how far off it stands. */
const sizes = [0.28, 0.55, 0.78, 1] as const;

/** A mark as a path around its middle: a triangle upwards for more than expected, downwards for less, a dot for neither. */
export function markPath(x: number, y: number, step: Step, largest: number): string {
  const half = largest * sizes[Math.abs(step) as 0 | 1 | 2 | 3];
  const at = (dx: number, dy: number): string => `${round(x + dx)} ${round(y + dy)}`;
  if (step === 0) {
    const r = round(half);
    return `M${at(-r, 0)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
  }
  const up = step > 0 ? -1 : 1;
  return `M${at(-half, -up * half * 0.8)}L${at(half, -up * half * 0.8)}L${at(0, up * half)}Z`;
}

const round = (number: number): number => Math.round(number * 10) / 10;

/** The class that paints a mark: its sign is in its shape already. */
export const markLook = (step: Step): string =>
  step === 0 ? 'residual-even' : step > 0 ? 'residual-above' : 'residual-below';

const stepWords: Readonly<Record<Step, string>> = {
  '3': 'far more than expected',
  '2': 'clearly more than expected',
  '1': 'a little more than expected',
  '0': 'about as expected',
  '-1': 'a little less than expected',
  '-2': 'clearly less than expected',
  '-3': 'far less than expected',
};

/** A step in words; days are later and earlier rather than more and less. */
export function wordsOfStep(step: Step, isDay: boolean): string {
  const words = stepWords[step];
  return isDay ? words.replace('more', 'later').replace('less', 'earlier') : words;
}
