import { measureOf, type Units } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { colourOnScreen } from '../../parts/colour-on-screen.ts';
import { dateInWords } from '../../parts/words.ts';
import type { NoteInHand } from '../../phone/notes-in-hand.ts';
import { openIn } from '../entries/tens-and-units.ts';
import { noteInWords } from '../note-facts.ts';

/** What is to be noted, what was noted of it before, and the box: never filled in from what was. */
export function TraitHead({
  trait,
  number,
  of,
  units,
  typed,
  now,
  before,
  onNextTrait,
}: {
  readonly trait: TraitShown;
  readonly number: number;
  readonly of: number;
  readonly units: Units;
  /** What stands in the box; null where the trait has none. */
  readonly typed: string | null;
  readonly now: NoteInHand | null;
  readonly before: NoteInHand | null;
  readonly onNextTrait: () => void;
}): ReactNode {
  const { unit } = measureOf(trait.unit, units);
  return (
    <div className="walk-trait">
      <div>
        <h2>{trait.name}</h2>
        <p className="walk-before">
          {before ? (
            <>
              {before.on.slice(0, 4)}: <Noted trait={trait} note={before} units={units} />
            </>
          ) : (
            'not noted before'
          )}
          {now && (
            <>
              {' · '}
              {dateInWords(now.on).replace(/ \d{4}$/, '')}: <Noted trait={trait} note={now} units={units} />
              {now.remark && ` (${now.remark})`}
            </>
          )}
        </p>
        {trait.how && trait.sort !== 'coloured' && <p className="walk-how">{trait.how}</p>}
      </div>
      {of > 1 && (
        <button
          type="button"
          className="walk-count"
          aria-label={`${number} of ${of}: to the next trait`}
          onClick={onNextTrait}
        >
          {number} of {of} ›
        </button>
      )}
      {typed !== null && (
        <output className="walk-box" aria-label={`${trait.name}, what is typed`}>
          {openIn(typed) && !typed.includes(' ') ? `${typed.slice(0, -2)}_` : typed.replace(' _', '')}
          {unit && <span>{unit}</span>}
        </output>
      )}
    </div>
  );
}

/** What a note says; a colour is shown as well. */
function Noted({
  trait,
  note,
  units,
}: {
  readonly trait: TraitShown;
  readonly note: NoteInHand;
  readonly units: Units;
}): ReactNode {
  return (
    <strong>
      {note.value !== null && typeof note.value === 'object' && (
        <span className="walk-noted-colour" style={{ background: colourOnScreen(note.value) }} />
      )}
      {noteInWords(trait, note, units)}
    </strong>
  );
}
