import { inWords } from '@keelrow/breeding/facts';
import type { UnsettledCase } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { colourOnScreen } from '../parts/colour-on-screen.ts';
import { measureOf, useUnits } from '../parts/measure.ts';
import { dateInWords } from '../parts/words.ts';
import { momentInWords } from '../phones/moment.ts';

type Note = UnsettledCase['notes'][number];

/** What was noted, by whom, when and on what; its picture if it has one. */
export function NoteInCase({
  note,
  unit,
  struck,
}: {
  readonly note: Note;
  readonly unit: string | null;
  readonly struck: boolean;
}): ReactNode {
  const said = <Said note={note} unit={unit} />;
  return (
    <>
      <span className="case-value">{struck ? <del>{said}</del> : said}</span>
      <span>
        {note.by ?? 'nobody named'}, {dateInWords(note.on)}
      </span>
      {note.remark && <q className="case-remark">{note.remark}</q>}
      <span className="small soft">
        Noted {momentInWords(note.at)}
        {note.device ? ` on ${note.device}` : ' in the office'}
      </span>
      {note.photo && (
        <a className="case-photo" href={`/api/photos/${note.photo}`} target="_blank" rel="noreferrer">
          <img
            src={`/api/photos/${note.photo}`}
            alt={`Taken by ${note.by ?? 'nobody named'} with this note`}
            loading="lazy"
          />
        </a>
      )}
    </>
  );
}

function Said({ note, unit }: { readonly note: Note; readonly unit: string | null }): ReactNode {
  const measure = measureOf(unit, useUnits());
  const { value, state } = note;
  if (state !== 'seen' || value === null) return state === 'seen' ? 'a picture' : state;
  if (typeof value === 'object')
    return (
      <>
        <span className="case-colour" style={{ background: colourOnScreen(value) }} aria-hidden="true" />
        {`L ${Math.round(value.l)} a ${Math.round(value.a)} b ${Math.round(value.b)}`}
      </>
    );
  if (typeof value === 'string') return dateInWords(value);
  return inWords(value, measure);
}
