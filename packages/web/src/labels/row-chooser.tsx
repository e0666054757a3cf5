import type { LabelRow } from '@keelrow/server/contract';
import { type ReactNode, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { Field } from '../parts/field.tsx';
import { counted } from '../parts/words.ts';

interface RowChooserProps {
  readonly rows: readonly LabelRow[];
  /** Codes that are left out. */
  readonly left: ReadonlySet<string>;
  readonly onLeave: (codes: ReadonlySet<string>) => void;
}

const rowsShown = 300;

/** Which of them get a label: all, but those whose tick is taken away. */
export function RowChooser({ rows, left, onLeave }: RowChooserProps): ReactNode {
  const [search, setSearch] = useState('');
  const words = search.trim().toLowerCase();
  const shown = rows.filter(({ code, line, group }) =>
    `${code} ${line} ${group}`.toLowerCase().includes(words),
  );
  const tick = (codes: readonly string[], on: boolean): void => {
    const next = new Set(left);
    for (const code of codes) {
      if (on) next.delete(code);
      else next.add(code);
    }
    onLeave(next);
  };
  const codes = shown.map(({ code }) => code);
  return (
    <fieldset className="labels-rows">
      <legend>
        {counted(rows.length - left.size, 'label')} of {rows.length}
      </legend>
      <Field label="Find among them">
        {(control) => (
          <input
            {...control}
            type="search"
            value={search}
            onChange={({ target }) => setSearch(target.value)}
          />
        )}
      </Field>
      <div className="labels-all">
        <Button onClick={() => tick(codes, true)}>{words ? 'Tick these' : 'Tick all'}</Button>
        <Button onClick={() => tick(codes, false)}>{words ? 'Leave these out' : 'Tick none'}</Button>
      </div>
      <ul className="labels-list">
        {shown.slice(0, rowsShown).map(({ code, line }) => (
          <li key={code}>
            <label className="ticked">
              <input
                type="checkbox"
                checked={!left.has(code)}
                onChange={({ target }) => tick([code], target.checked)}
              />
              <span className="number">{code}</span> <span className="soft small">{line}</span>
            </label>
          </li>
        ))}
      </ul>
      {shown.length > rowsShown && (
        <p className="small soft">{shown.length - rowsShown} more; find them by their code.</p>
      )}
    </fieldset>
  );
}
