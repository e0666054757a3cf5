import type { NoteResidual, TraitModel } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import { lazy, type ReactNode, Suspense, useMemo, useState } from 'react';
import { traitWriting } from '../compare/trait-shown.ts';
import { Button } from '../parts/button.tsx';
import { useUnits } from '../parts/measure.ts';
import { plainNumber } from '../parts/words.ts';
import { notedShown } from './noted-shown.ts';

const OneNote = lazy(() => import('./one-note.tsx'));
const first = 10;

/** Notes so far from what was to be expected that a slip is likely; each can be opened and mended. */
export function Slips({ model: { report, residuals } }: { readonly model: TraitModel }): ReactNode {
  const units = useUnits();
  const [all, setAll] = useState(false);
  const [open, setOpen] = useState<NoteResidual | null>(null);
  const writing = useMemo(() => traitWriting(report.trait, units), [report.trait, units]);
  const flagged = residuals
    .filter((note) => note.flagged)
    .sort((a, b) => Math.abs(b.standardised ?? 0) - Math.abs(a.standardised ?? 0));
  if (flagged.length === 0)
    return <p className="soft">None: no note lies far from what was to be expected.</p>;
  return (
    <>
      <p>
        They count in the estimates until somebody mends them. Look at the plant or the paper again before
        trusting what they are on.
      </p>
      <section className="slips-frame" aria-label="Notes that may be slips, one a row">
        <table className="slips">
          <thead>
            <tr>
              <th scope="col">Genet</th>
              <th scope="col">Noted</th>
              <th scope="col">Year</th>
              <th scope="col">Bed</th>
              <th scope="col">How far off</th>
              <th scope="col">
                <span className="for-readers-only">The note itself</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {(all ? flagged : flagged.slice(0, first)).map((note) => (
              <tr key={note.note}>
                <th scope="row">
                  <Link to="/plants/$genet" params={{ genet: note.code }}>
                    {note.code}
                  </Link>
                </th>
                <td>{notedShown(note, writing)}</td>
                <td>{note.year}</td>
                <td>{note.bed ?? <span className="soft">not known</span>}</td>
                <td>{farWords(note.standardised)}</td>
                <td>
                  <Button
                    look="quiet"
                    aria-label={`Open the note on ${note.code} of ${note.year}`}
                    onClick={() => setOpen(note)}
                  >
                    Open the note
                  </Button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {!all && flagged.length > first && (
        <div>
          <Button onClick={() => setAll(true)}>Show all {flagged.length}</Button>
        </div>
      )}
      {open && (
        <Suspense>
          <OneNote note={open} onClose={() => setOpen(null)} />
        </Suspense>
      )}
    </>
  );
}

const farWords = (standardised: number | null): string =>
  standardised === null
    ? 'nothing else to hold it against'
    : `${plainNumber(Math.abs(Number(standardised.toFixed(1))))} times the usual spread ${standardised < 0 ? 'below' : 'above'}`;
