import type { EstimatesReport, GenetEstimate } from '@keelrow/server/contract';
import { useVirtualizer } from '@tanstack/react-virtual';
import { type ReactNode, useMemo, useRef, useState } from 'react';
import { useUnits } from '../parts/measure.ts';
import { SearchBox } from '../parts/search-box.tsx';
import { usePhone } from '../parts/use-media.ts';
import { counted } from '../parts/words.ts';
import { HowWorkedOut } from './how-worked-out.tsx';
import { Pair } from './pair.tsx';
import './ranking.css';
import { RankingRow } from './ranking-row.tsx';
import { numberLine } from './scale.ts';
import { traitWriting } from './trait-shown.ts';

interface RankingProps {
  readonly report: EstimatesReport;
  readonly busy: boolean;
  readonly onAgain: () => void;
}

export function Ranking({ report, busy, onAgain }: RankingProps): ReactNode {
  const phone = usePhone();
  const units = useUnits();
  const scroller = useRef<HTMLElement>(null);
  const [search, setSearch] = useState('');
  const [held, setHeld] = useState<readonly GenetEstimate[]>([]);
  const writing = useMemo(() => traitWriting(report.trait, units), [report.trait, units]);
  const line = useMemo(
    () =>
      numberLine(
        report.estimates.flatMap(({ low, high }) => [writing.toShown(low), writing.toShown(high)]),
        phone ? 4 : 8,
      ),
    [report.estimates, writing, phone],
  );
  // One number of decimals for the whole list, by the usual doubt in it.
  const usualSe = useMemo(() => median(report.estimates.map(({ se }) => se)), [report.estimates]);
  const ranked = useMemo(
    () => report.estimates.map((estimate, index) => ({ estimate, rank: index + 1 })),
    [report],
  );
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
    estimateSize: () => (phone ? 66 : 34),
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
          <p className="small soft">
            {counted(report.genets, 'genet')} by {counted(report.notes, 'note')} of{' '}
            {yearsInWords(report.years)}. Tick two to hold them against each other.
          </p>
        </div>
        <section ref={scroller} className="ranking" aria-label={`Ranking by ${report.trait.name}`}>
          <table aria-rowcount={shown.length + 1}>
            <thead>
              <tr>
                <th scope="col">Rank</th>
                <th scope="col">Genet</th>
                <th scope="col" className="ranking-axis">
                  <span className="for-readers-only">Range that holds the truth with a chance of 80%</span>
                  <svg width="100%" height="20" aria-hidden="true">
                    {line.ticks.map((tick) => (
                      <text key={tick} x={`${line.at(tick) * 100}%`} y="14">
                        {writing.tick(tick)}
                      </text>
                    ))}
                  </svg>
                </th>
                <th scope="col" className="number">
                  {report.trait.name}
                  {!writing.isDay && writing.unit && <span className="soft"> {writing.unit}</span>}
                </th>
                <th scope="col" className="number">
                  Notes
                </th>
                <th scope="col">
                  <span className="for-readers-only">Hold against</span>
                </th>
              </tr>
            </thead>
            <tbody style={{ height: rows.getTotalSize() }}>
              {rows.getVirtualItems().map((item) => {
                const { estimate, rank } = shown[item.index]!;
                return (
                  <RankingRow
                    key={estimate.id}
                    estimate={estimate}
                    rank={rank}
                    line={line}
                    writing={writing}
                    usualSe={usualSe}
                    held={held.some(({ id }) => id === estimate.id)}
                    onHold={() => hold(estimate)}
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
        <HowWorkedOut report={report} writing={writing} folded={phone} busy={busy} onAgain={onAgain} />
      </aside>
    </div>
  );
}

const median = (numbers: readonly number[]): number =>
  [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

/** `2019 to 2026`, or the years that there are. */
function yearsInWords(years: readonly number[]): string {
  const [first, last] = [Math.min(...years), Math.max(...years)];
  if (years.length === 0) return 'no year';
  if (years.length === 1) return String(first);
  return last - first + 1 === years.length ? `${first} to ${last}` : [...years].sort().join(', ');
}
