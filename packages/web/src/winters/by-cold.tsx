import type { WintersReport } from '@keelrow/server/contract';
import { getRouteApi } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { InlineField } from '../parts/field.tsx';
import { measureOf, useUnits } from '../parts/measure.ts';
import { ColdCurve } from './cold-curve.tsx';
import { coldSentences } from './winter-words.ts';

const route = getRouteApi('/winters');

/** The curve over cold, in words and drawn, with the curve of a chosen origin. */
export function ByCold({ report }: { readonly report: WintersReport }): ReactNode {
  const { origin } = route.useSearch();
  const navigate = route.useNavigate();
  const measure = measureOf('°C', useUnits());
  const chosen = origin === undefined ? null : (report.curves.find((one) => one.origin === origin) ?? null);
  const names = report.curves.flatMap((curve) => curve.origin ?? []);
  return (
    <>
      {coldSentences(report, measure).map((line) => (
        <p key={line}>{line}</p>
      ))}
      {names.length > 1 && (
        <div>
          <InlineField label="Draw beside it">
            {(id) => (
              <select
                id={id}
                value={chosen?.origin ?? ''}
                onChange={(event) =>
                  void navigate({
                    search: { origin: event.target.value || undefined },
                    replace: true,
                    resetScroll: false,
                  })
                }
              >
                <option value="">no origin</option>
                {names.map((name) => (
                  <option key={name} value={name}>
                    {name}
                  </option>
                ))}
              </select>
            )}
          </InlineField>
        </div>
      )}
      <ColdCurve report={report} origin={chosen} />
    </>
  );
}
