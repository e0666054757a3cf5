import type { BriefMatch } from '@keelrow/server/contract';
import { type ReactNode, useMemo, useState } from 'react';
import { useWorkedOut } from '../api/worked-out.ts';
import { Button } from '../parts/button.tsx';
import { Lines } from '../parts/lines.tsx';
import { useUnits } from '../parts/measure.ts';
import { SearchBox } from '../parts/search-box.tsx';
import { usePhone } from '../parts/use-media.ts';
import { counted } from '../parts/words.ts';
import { Working } from '../parts/working.tsx';
import type { Limit } from './limits.ts';
import './match.css';
import { MatchCards } from './match-cards.tsx';
import { MatchTable } from './match-table.tsx';

const step = 50;

/** Every living plant held against the brief, the likeliest to meet all of it first. */
export function Match({
  brief,
  limits,
}: {
  readonly brief: string;
  readonly limits: readonly Limit[];
}): ReactNode {
  const phone = usePhone();
  const units = useUnits();
  // Changed limits are another question.
  const asked = JSON.stringify(limits);
  const { result, work, again } = useWorkedOut<BriefMatch>(['match', brief, asked, units], 'briefs/match', {
    brief,
  });
  const [search, setSearch] = useState('');
  const [most, setMost] = useState(step);
  const found = useMemo(() => {
    const wanted = search.trim().toLowerCase();
    return (result?.plants ?? [])
      .map((plant, index) => ({ plant, rank: index + 1 }))
      .filter(
        ({ plant: { code, name } }) =>
          wanted === '' || code.toLowerCase().includes(wanted) || (name ?? '').toLowerCase().includes(wanted),
      );
  }, [result, search]);
  const rows = found.slice(0, most);
  const List = phone ? MatchCards : MatchTable;
  return (
    <>
      <Working work={work} words="Holding every plant against the brief" again={again} />
      {result && (
        <>
          <Lines title="Look at again" lines={result.limits.flatMap(({ beyond }) => beyond ?? [])} />
          <Lines
            title="Cannot be told"
            lines={result.limits.flatMap(({ words, unknown }) => (unknown ? [`${words}: ${unknown}`] : []))}
          />
          {result.plants.length === 0 ? (
            <p className="soft">No genet has a living plant.</p>
          ) : (
            <>
              <SearchBox
                name="Search among the plants"
                placeholder="Code or name"
                value={search}
                onSearch={setSearch}
              />
              <List limits={result.limits} rows={rows} />
              <p className="small soft" role="status">
                {found.length === 0
                  ? 'No plant is called that.'
                  : `${counted(rows.length, 'genet')} of ${found.length.toLocaleString('en-US')}, the likeliest first.`}
              </p>
              {found.length > rows.length && (
                <div>
                  <Button onClick={() => setMost((now) => now + step)}>Show {step} more</Button>
                </div>
              )}
            </>
          )}
          <details className="fold">
            <summary>What these chances rest on, and what to heed</summary>
            <Lines title="To heed" lines={result.heed} />
            <Lines
              title="Notes behind them"
              lines={result.traits.map(
                ({ name, notes, genets }) =>
                  `${name}: ${counted(notes, 'note')} on ${counted(genets, 'genet')}`,
              )}
            />
          </details>
        </>
      )}
    </>
  );
}
