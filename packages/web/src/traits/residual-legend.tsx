import type { ReactNode } from 'react';
import { markLook, markPath, wordsOfStep } from './residual-marks.ts';
import type { Step } from './residual-panels.ts';

const steps: readonly Step[] = [3, 2, 1, 0, -1, -2, -3];

/** What the marks mean. */
export function ResidualLegend({ isDay }: { readonly isDay: boolean }): ReactNode {
  return (
    <ul className="residual-legend" aria-label="Legend">
      {steps.map((step) => (
        <li key={step}>
          <svg width="18" height="18" aria-hidden="true">
            <path className={markLook(step)} d={markPath(9, 9, step, 7)} />
          </svg>
          {wordsOfStep(step, isDay)}
        </li>
      ))}
    </ul>
  );
}
