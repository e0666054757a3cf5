import type { ImportPreview } from '@keelrow/server/contract';
import { useVirtualizer } from '@tanstack/react-virtual';
import { type ReactNode, useRef } from 'react';
import { Button } from '../parts/button.tsx';
import { counted } from '../parts/words.ts';
import { problemsCsv } from './problems-csv.ts';

/** All that is wrong, by row and column, with what would mend it. */
export function Problems({
  preview,
  name,
}: {
  readonly preview: ImportPreview;
  readonly name: string;
}): ReactNode {
  const scroller = useRef<HTMLElement>(null);
  const { problems, problemCount } = preview;
  const rows = useVirtualizer({
    count: problems.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => 52,
    overscan: 8,
  });
  if (problemCount === 0) return null;

  const download = (): void => {
    const address = URL.createObjectURL(new Blob(['\ufeff', problemsCsv(problems)], { type: 'text/csv' }));
    const link = document.createElement('a');
    link.href = address;
    link.download = `${name.replace(/\.[^.]*$/, '')} problems.csv`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  };

  return (
    <section className="problems" aria-labelledby="problems">
      <header>
        <h3 id="problems">{counted(problemCount, 'thing')} to mend before it can be stored</h3>
        <Button onClick={download}>Save the list as CSV</Button>
      </header>
      {problems.length < problemCount && (
        <p className="small soft">The first {problems.length.toLocaleString('en-US')} are listed.</p>
      )}
      <section ref={scroller} className="problem-list" aria-label="Problems">
        <ol style={{ height: rows.getTotalSize() }}>
          {rows.getVirtualItems().map((item) => {
            const { row, column, problem, remedy } = problems[item.index]!;
            return (
              <li
                key={item.key}
                ref={rows.measureElement}
                data-index={item.index}
                style={{ transform: `translateY(${item.start}px)` }}
              >
                <span className="problem-place">
                  {[row !== null && `Row ${row}`, column].filter(Boolean).join(', ') || 'The file'}
                </span>
                <span>
                  {problem}
                  {remedy && <span className="soft"> ({remedy})</span>}
                </span>
              </li>
            );
          })}
        </ol>
      </section>
    </section>
  );
}
