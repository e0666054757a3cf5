import { kindOf } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { Nothing } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';

/** Whether a trait has notes, and none of them on a plant or genet. */
export const isNotedElsewhere = ({ notes, notesElsewhere }: TraitShown): boolean =>
  notes > 0 && notes === notesElsewhere.reduce((sum, kind) => sum + kind.notes, 0);

/** `Its 23 notes are on seed lots.` */
export function elsewhereSentence({ notes, notesElsewhere }: TraitShown): string {
  const kinds = notesElsewhere.map((kind) =>
    notesElsewhere.length > 1 ? `${kindOf(kind.on).many} (${kind.notes})` : kindOf(kind.on).many,
  );
  return `Its ${counted(notes, 'note')} ${notes === 1 ? 'is' : 'are'} on ${kinds.join(' and ')}.`;
}

/** Why a trait that was noted on seed lots, crosses, batches or places alone ranks nothing. */
export function NotedElsewhere({ trait }: { readonly trait: TraitShown }): ReactNode {
  return (
    <Nothing title={`${trait.name} was not noted on plants`}>
      <p>
        {elsewhereSentence(trait)} Estimates rank genets, so they need notes on plants or genets.{' '}
        <Link to="/programme/$kind" params={{ kind: 'notes' }} search={{ search: trait.code }}>
          See the notes
        </Link>
        .
      </p>
    </Nothing>
  );
}
