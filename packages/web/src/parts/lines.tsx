import type { ReactNode } from 'react';
import './lines.css';

/** A small heading with sentences below it; nothing where there are none. */
export function Lines({
  title,
  lines,
}: {
  readonly title: string;
  readonly lines: readonly string[];
}): ReactNode {
  if (lines.length === 0) return null;
  return (
    <>
      <h3 className="lines-title">{title}</h3>
      <ul className="lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
