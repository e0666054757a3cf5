import type { TraitShown } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { colourOf, type ValueSteps } from './value-steps.ts';

interface LegendProps {
  readonly trait: TraitShown | null;
  readonly steps: ValueSteps | null;
  readonly year: number;
}

/** What the numbers and colours of the marks mean. */
export function StepsLegend({ trait, steps, year }: LegendProps): ReactNode {
  return (
    <div className="steps-legend">
      {trait && steps && steps.steps.length === 0 && (
        <p className="soft">
          No plant here has a note of {trait.name} in {year}.
        </p>
      )}
      <ul aria-label="Legend">
        {steps?.steps.map(({ step, words }) => (
          <li key={step}>
            <span
              className={`step-swatch ${step > 4 ? 'on-dark' : 'on-light'}`}
              style={{ background: colourOf(step) }}
            >
              {step}
            </span>
            {words}
          </li>
        ))}
        <li>
          <span className="step-swatch step-none" />
          {trait ? 'not noted' : 'alive'}
        </li>
        <li>
          <span className="step-swatch step-gone">×</span>
          gone
        </li>
      </ul>
    </div>
  );
}
