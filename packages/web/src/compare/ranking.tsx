import type { BestOf, EstimatesReport, GenetEstimate } from '@keelrow/server/contract';
import { getRouteApi } from '@tanstack/react-router';
import { useVirtualizer } from '@tanstack/react-virtual';
import { type ReactNode, useMemo, useRef, useState } from 'react';
import { useWorkedOut } from '../api/worked-out.ts';
import { useUnits } from '../parts/measure.ts';
import { SearchBox } from '../parts/search-box.tsx';
import { usePhone } from '../parts/use-media.ts';
import { Working } from '../parts/working.tsx';
import { BehindIt } from './behind-it.tsx';
import { Choices } from './choices.tsx';
import { Pair } from './pair.tsx';
import { rankedBy } from './ranked.ts';
import '../estimates/marks.css';
import './ranking.css';
import { RankingHead } from './ranking-head.tsx';
import { RankingRow } from './ranking-row.tsx';
import { numberLine } from './scale.ts';
import { traitWriting } from './trait-shown.ts';

interface RankingProps {
  readonly report: EstimatesReport;
  readonly busy: boolean;
  readonly onAgain: () => void;
}

const route = getRouteApi('/compare');

export function Ranking({ report, busy, onAgain }: RankingProps): ReactNode {
  const phone = usePhone();
  const units = useUnits();
  const { as: worth = 'itself', unnoted = false, best } = route.useSearch();
  const scroller = useRef<HTMLElement>(null);
  const [search, setSearch] = useState('');
  const [held, setHeld] = useState<readonly GenetEstimate[]>([]);
  const writing = useMemo(() => traitWriting(report.trait, units), [report.trait, units]);
  const ranked = useMemo(() => rankedBy(report, writing, worth, unnoted), [report, writing, worth, unnoted]);
  const line = useMemo(
    () =>
      numberLine(
        ranked.flatMap(({ low, high }) => [low, high]),
        phone ? 6 : 12,
      ),
    [ranked, phone],
  );
  const { trait } = report;
  const bestOf = useWorkedOut<BestOf>(
    ['best', trait.code, String(best)],
    'estimates/best',
    { trait: trait.code, k: best },
    best !== undefined && worth === 'itself',
  );
  const chances = useMemo(
    () => bestOf.result && new Map(bestOf.result.chances.map(({ id, chance }) => [id, chance])),
    [bestOf.result],
  );
  // One number of decimals for the whole list, by the usual doubt in it.
  const usualSe = useMemo(() => median(ranked.map(({ se }) => se)), [ranked]);
  const wanted = search.trim().toLowerCase();
  const shown = ranked.filter(
    ({ estimate }) =>
      wanted === '' ||
      estimate.code.toLowerCase().includes(wanted) ||
      (estimate.name ?? '').toLowerCase().includes(wanted),
  );
  const rows = useVirtualizer({
    count: shown.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => (phone ? 88 : 34),
    overscan: 12,
  });

  const hold = (estimate: GenetEstimate): void =>
    setHeld((now) =>
      now.some(({ id }) => id === estimate.id)
        ? now.filter(({ id }) => id !== estimate.id)
        : [...now.slice(-1), estimate],
    );

  return (
    <div className="compare">
      <div className="compare-list">
        <div className="compare-bar">
          <SearchBox
            name="Search within the ranking"
            placeholder="Code or name"
            value={search}
            onSearch={setSearch}
          />
          <Choices report={report} folded={phone} />
        </div>
        {best !== undefined && (
          <Working work={bestOf.work} words="Drawing lots for the best" again={bestOf.again} />
        )}
        <section
          ref={scroller}
          className={chances ? 'ranking ranking-with-best' : 'ranking'}
          aria-label={`Ranking by ${trait.name}`}
        >
          <table aria-rowcount={shown.length + 1}>
            <RankingHead
              line={line}
              writing={writing}
              trait={trait.name}
              worth={worth}
              best={chances && best}
            />
            <tbody style={{ height: rows.getTotalSize() }}>
              {rows.getVirtualItems().map((item) => {
                const row = shown[item.index]!;
                return (
                  <RankingRow
                    key={row.estimate.id}
                    row={row}
                    report={report}
                    worth={worth}
                    line={line}
                    writing={writing}
                    usualSe={usualSe}
                    best={chances && best ? { k: best, chance: chances.get(row.estimate.id) ?? null } : null}
                    held={held.some(({ id }) => id === row.estimate.id)}
                    onHold={() => hold(row.estimate)}
                    index={item.index}
                    start={item.start}
                    height={item.size}
                  />
                );
              })}
            </tbody>
          </table>
        </section>
      </div>
      <aside className="compare-side">
        {held.length > 0 && (
          <Pair report={report} writing={writing} held={held} onForget={() => setHeld([])} />
        )}
        <BehindIt report={report} worth={worth} folded={phone} busy={busy} onAgain={onAgain} />
      </aside>
    </div>
  );
}

const median = (numbers: readonly number[]): number =>
  [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;
