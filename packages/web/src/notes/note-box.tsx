import { keptAs } from '@keelrow/breeding/facts';
import type { NoteGridRow, TraitShown } from '@keelrow/server/contract';
import {
  type ClipboardEvent,
  type FocusEvent,
  type KeyboardEvent,
  type ReactNode,
  useId,
  useState,
} from 'react';
import { cellShown, entering } from './cell-model.ts';
import { lettersAreStates, readEntry, type Setting, statesByKey } from './entry.ts';
import type { CellEntered } from './grid-state.ts';
import { noteStore, useNotesEntered } from './note-store.ts';

interface BoxProps {
  readonly row: NoteGridRow;
  readonly trait: TraitShown;
  readonly setting: Setting;
  /** Leads to another box: by so many rows and columns. */
  readonly onMove?: (rows: number, columns: number) => void;
  readonly onPaste?: (text: string) => void;
  readonly onFocus?: () => void;
}

const marks: Record<CellEntered['status'], { mark: string; words: string }> = {
  held: { mark: '!', words: 'to mend' },
  refused: { mark: '!', words: 'refused' },
  waiting: { mark: '…', words: 'waiting' },
  sending: { mark: '…', words: 'waiting' },
  kept: { mark: '✓', words: 'kept' },
};

/** One box for one note: checks as one types, enters on leaving, and never drops what was typed. */
export function NoteBox({ row, trait, setting, onMove, onPaste, onFocus }: BoxProps): ReactNode {
  const state = useNotesEntered();
  const shown = cellShown(state, row, trait, Number(setting.on.slice(0, 4)), setting.units);
  const [draft, setDraft] = useState<string | null>(null);
  const id = useId();

  const commit = (text: string): void => {
    setDraft(null);
    const entry = entering(state, row, trait, text, setting);
    if (entry) noteStore.enter([entry]);
  };
  const leave = (): void => {
    if (draft !== null) commit(draft);
  };
  const byKey = (event: KeyboardEvent<HTMLInputElement>): void => {
    const box = event.currentTarget;
    const whole = box.selectionStart === 0 && box.selectionEnd === box.value.length;
    const letter = event.key.toLowerCase();
    if (Object.hasOwn(statesByKey, letter) && !event.ctrlKey && !event.metaKey) {
      if (event.altKey || (whole && lettersAreStates(trait))) {
        event.preventDefault();
        commit(statesByKey[letter as keyof typeof statesByKey]);
        return;
      }
    }
    if (letter === 'z' && (event.ctrlKey || event.metaKey) && draft === null) {
      event.preventDefault();
      noteStore.undo();
      return;
    }
    if (event.key === 'Escape') {
      setDraft(null);
      return;
    }
    const step = stepOf(event, box, whole);
    if (step && onMove) {
      event.preventDefault();
      leave();
      onMove(...step);
    }
  };

  const read = draft === null ? null : readEntry(trait, draft, setting);
  const problem =
    read && 'problem' in read ? read.problem : draft === null ? (shown.entered?.problem ?? null) : null;
  const status = draft === null ? shown.entered?.status : undefined;
  const replaced = status === 'kept' || status === 'waiting' ? shown.entered?.before?.shown : null;
  const told = [
    status && marks[status].words,
    replaced && `replaces ${replaced}`,
    shown.several > 0 && `the latest of ${shown.several} notes`,
    shown.before && `${shown.before.year}: ${shown.before.shown}`,
    problem,
  ].filter(Boolean);

  return (
    <div className={`note-box ${status ? `note-${status}` : ''} ${problem ? 'note-wrong' : ''}`}>
      <input
        value={draft ?? shown.text}
        aria-label={`${trait.name}, ${row.plantCode}`}
        aria-describedby={told.length > 0 ? id : undefined}
        aria-invalid={problem ? true : undefined}
        inputMode={keptAs[trait.sort] === 'number' ? 'decimal' : 'text'}
        placeholder=" "
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        enterKeyHint="next"
        onChange={(event) => setDraft(event.target.value)}
        onFocus={(event: FocusEvent<HTMLInputElement>) => {
          event.target.select();
          onFocus?.();
        }}
        onBlur={leave}
        onKeyDown={byKey}
        onPaste={(event: ClipboardEvent) => {
          const text = event.clipboardData.getData('text/plain');
          if (!onPaste || !/[\t\r\n]/.test(text.replace(/\r?\n$/, ''))) return;
          event.preventDefault();
          onPaste(text);
        }}
      />
      {shown.before && <span className="note-before">{shown.before.shown}</span>}
      {status && <span className="note-mark">{marks[status].mark}</span>}
      {replaced && <del className="note-replaced">{replaced}</del>}
      {told.length > 0 && (
        <span id={id} className="for-readers-only">
          {told.join('; ')}
        </span>
      )}
      {problem && (
        <span className="note-problem" role="alert">
          {problem}
        </span>
      )}
    </div>
  );
}

/** Arrow keys leave a box only from its edge, so that one can still walk within what is being typed. */
function stepOf(
  event: KeyboardEvent,
  box: HTMLInputElement,
  whole: boolean,
): [rows: number, columns: number] | null {
  switch (event.key) {
    case 'Enter':
      return [event.shiftKey ? -1 : 1, 0];
    case 'ArrowDown':
      return [1, 0];
    case 'ArrowUp':
      return [-1, 0];
    case 'ArrowLeft':
      return whole || box.selectionEnd === 0 ? [0, -1] : null;
    case 'ArrowRight':
      return whole || box.selectionStart === box.value.length ? [0, 1] : null;
    default:
      return null;
  }
}
