import type { EstimatesReport } from '@keelrow/server/contract';
import { getRouteApi } from '@tanstack/react-router';
import { type FormEvent, type ReactNode, useId, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { InlineField } from '../parts/field.tsx';
import { counted } from '../parts/words.ts';
import { bestWanted, readBest } from './best-typed.ts';
import type { Worth } from './ranked.ts';

const route = getRouteApi('/compare');

interface ChoicesProps {
  readonly report: EstimatesReport;
  readonly folded: boolean;
}

/** What of the genets is ranked, which of them, and among how many best each is held. */
export function Choices({ report, folded }: ChoicesProps): ReactNode {
  const body = (
    <div className="compare-choices">
      <WorthChoice report={report} />
      <Unnoted report={report} />
      <BestChoice report={report} />
    </div>
  );
  if (!folded) return body;
  return (
    <details className="fold">
      <summary>As a parent, without notes, the best few</summary>
      {body}
    </details>
  );
}

function WorthChoice({ report }: Pick<ChoicesProps, 'report'>): ReactNode {
  const { as } = route.useSearch();
  const navigate = route.useNavigate();
  if (!report.estimates.some(({ breeding }) => breeding !== null)) return null;
  const show = (worth: Worth): void =>
    void navigate({
      search: (now) => ({ ...now, as: worth === 'parent' ? worth : undefined }),
      replace: true,
    });
  return (
    <InlineField label="Worth">
      {(id) => (
        <select
          id={id}
          value={as ?? 'itself'}
          onChange={(event) => show(event.target.value === 'parent' ? 'parent' : 'itself')}
        >
          <option value="itself">as a plant</option>
          <option value="parent">as a parent</option>
        </select>
      )}
    </InlineField>
  );
}

function Unnoted({ report }: Pick<ChoicesProps, 'report'>): ReactNode {
  const { unnoted } = route.useSearch();
  const navigate = route.useNavigate();
  const without = report.estimates.filter(({ notes }) => notes === 0).length;
  if (without === 0) return null;
  return (
    <label className="ticked">
      <input
        type="checkbox"
        checked={unnoted ?? false}
        onChange={(event) =>
          void navigate({
            search: (now) => ({ ...now, unnoted: event.target.checked || undefined }),
            replace: true,
          })
        }
      />
      <span>and {counted(without, 'genet')} without notes, by their kin</span>
    </label>
  );
}

function BestChoice({ report }: Pick<ChoicesProps, 'report'>): ReactNode {
  const { as, best } = route.useSearch();
  const navigate = route.useNavigate();
  const most = report.estimates.length - 1;
  const wrong = useId();
  const [typed, setTyped] = useState(String(best ?? Math.min(10, Math.max(1, most))));
  if (as === 'parent' || most < 1) return null;
  const count = readBest(typed, most);
  const ask = (event: FormEvent): void => {
    event.preventDefault();
    if (count !== null) void navigate({ search: (now) => ({ ...now, best: count }), replace: true });
  };
  return (
    <form className="compare-best" onSubmit={ask} noValidate>
      <InlineField label="Chance to be among the best">
        {(id) => (
          <input
            id={id}
            inputMode="numeric"
            value={typed}
            aria-invalid={count === null || undefined}
            aria-describedby={count === null ? wrong : undefined}
            onChange={(event) => setTyped(event.target.value)}
          />
        )}
      </InlineField>
      <Button type="submit" disabled={count === null}>
        Reckon
      </Button>
      {best !== undefined && (
        <Button
          look="quiet"
          onClick={() => void navigate({ search: (now) => ({ ...now, best: undefined }), replace: true })}
        >
          Without
        </Button>
      )}
      {count === null && (
        <p id={wrong} className="field-problem" role="alert">
          {bestWanted(most)}
        </p>
      )}
    </form>
  );
}
