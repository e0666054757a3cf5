import { keptAs } from '@keelrow/breeding/facts';
import type { NoteGrid, NoteGridRow, TraitShown } from '@keelrow/server/contract';
import { type KeyboardEvent, type ReactNode, type Ref, useId, useState } from 'react';
import { statesByKey } from '../notes/entry.ts';
import { noteStore, useNotesEntered } from '../notes/note-store.ts';
import { boxShown, oddness, typedIn, type Walked } from './paper-note.ts';

interface PaperBoxProps {
  readonly grid: NoteGrid;
  readonly row: NoteGridRow;
  readonly trait: TraitShown;
  readonly walked: Walked;
  readonly input: Ref<HTMLInputElement>;
  /** Leads to the box so many boxes on, in reading order, or so many rows below. */
  readonly onMove: (boxes: number, rows: number) => void;
  readonly onFocus: () => void;
}

const marks = { held: '!', refused: '!', waiting: '…', sending: '…', kept: '✓' } as const;

/** One box of the sheet. Enter goes on; where the value is odd, Enter once more says that it is so. */
export function PaperBox({ grid, row, trait, walked, input, onMove, onFocus }: PaperBoxProps): ReactNode {
  const state = useNotesEntered();
  const { text, entered } = boxShown(state, row, trait, walked);
  const [draft, setDraft] = useState<string | null>(null);
  const [question, setQuestion] = useState<string | null>(null);
  const id = useId();

  const commit = (typed: string): void => {
    setDraft(null);
    setQuestion(null);
    const entry = typedIn(state, row, trait, typed, walked);
    if (entry) noteStore.enter([entry]);
  };
  const odd = (typed: string): string | null => oddness(state, grid, row, trait, typed, walked);
  /** Whether to go on: what is odd is asked about first. */
  const take = (): boolean => {
    if (draft === null) return true;
    const asked = question === null ? odd(draft) : null;
    if (asked !== null) {
      setQuestion(asked);
      return false;
    }
    commit(draft);
    return true;
  };
  /** Left by another way than Enter: nothing typed is lost, and what is odd stays marked. */
  const leave = (): void => {
    if (draft === null) return;
    const asked = question ?? odd(draft);
    commit(draft);
    setQuestion(asked);
  };
  const byKey = (event: KeyboardEvent<HTMLInputElement>): void => {
    const letter = event.key.toLowerCase();
    if (event.altKey && Object.hasOwn(statesByKey, letter)) {
      event.preventDefault();
      commit(statesByKey[letter as keyof typeof statesByKey]);
      onMove(1, 0);
    } else if (event.key === 'Enter') {
      event.preventDefault();
      if (take()) onMove(event.shiftKey ? -1 : 1, 0);
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      if (take()) onMove(0, event.key === 'ArrowDown' ? 1 : -1);
    } else if (event.key === 'Escape') {
      setDraft(null);
      setQuestion(null);
    } else if (letter === 'z' && (event.ctrlKey || event.metaKey) && draft === null) {
      event.preventDefault();
      noteStore.undo();
    }
  };

  const before = row.before[trait.code];
  const problem = draft === null ? (entered?.problem ?? null) : null;
  const status = draft === null ? entered?.status : undefined;
  return (
    <div className={`paper-box ${problem ? 'paper-wrong' : ''}`}>
      <input
        ref={input}
        value={draft ?? text}
        aria-label={`${trait.name}, ${row.plantCode}`}
        aria-describedby={question || problem ? id : undefined}
        aria-invalid={problem ? true : undefined}
        inputMode={keptAs[trait.sort] === 'number' ? 'decimal' : 'text'}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        enterKeyHint="next"
        onChange={({ target }) => {
          setDraft(target.value);
          setQuestion(null);
        }}
        onFocus={({ target }) => {
          target.select();
          onFocus();
        }}
        onBlur={leave}
        onKeyDown={byKey}
      />
      {before && <span className="paper-before">{`’${String(before.year).slice(2)}: ${before.shown}`}</span>}
      {status && <span className="paper-mark">{marks[status]}</span>}
      {(question ?? problem) && (
        <span id={id} className={question ? 'paper-question' : 'field-problem'} role="alert">
          {question
            ? `${question} ${draft === null ? 'It is entered; type anew if it is a slip.' : 'Enter again if it is so.'}`
            : problem}
        </span>
      )}
    </div>
  );
}
