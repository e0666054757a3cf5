import type { TraitShown } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { colourOf, inkOn, type ValueSteps } from './value-steps.ts';

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
        {steps?.steps.map((step) => (
          <li key={step.number}>
            <span className={`step-swatch ${inkOn(step)}`} style={{ background: colourOf(step) }}>
              {step.number}
            </span>
            {step.words}
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
