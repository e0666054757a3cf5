import { type ReactNode, useEffect } from 'react';
import './page.css';

interface PageProps {
  readonly title: string;
  /** What the page answers, in one short line. */
  readonly line?: ReactNode;
  readonly actions?: ReactNode;
  /** What is chosen on the page: beside the title, on a phone below it. */
  readonly controls?: ReactNode;
  /** The page keeps to the window's height and its own parts scroll. */
  readonly fills?: boolean;
  readonly children: ReactNode;
}

export function Page({ title, line, actions, controls, fills = false, children }: PageProps): ReactNode {
  useEffect(() => {
    document.title = `${title} · Keelrow`;
  }, [title]);
  return (
    <div className={fills ? 'page page-fills' : 'page'}>
      <header className="page-head">
        <div className="page-title">
          <h1>{title}</h1>
          {line && <p className="soft">{line}</p>}
        </div>
        {actions && <div className="page-actions">{actions}</div>}
        {controls && <div className="page-controls">{controls}</div>}
      </header>
      {children}
    </div>
  );
}
