import { keptAs } from '@keelrow/breeding/facts';
import type { NoteGrid, NoteGridRow, TraitShown } from '@keelrow/server/contract';
import { useVirtualizer } from '@tanstack/react-virtual';
import { type ReactNode, useRef } from 'react';
import { measureOf, useUnits } from '../parts/measure.ts';
import { useToday } from '../parts/use-today.ts';
import { cellShown, entering } from './cell-model.ts';
import { type Setting, statesByKey } from './entry.ts';
import { NoteBox } from './note-box.tsx';
import './note-cards.css';
import { noteStore, useNotesEntered } from './note-store.ts';

/** For the phone: one plant after the other in walking order, with boxes and states that a thumb can hit. */
export function NoteCards({ grid, on }: { readonly grid: NoteGrid; readonly on: string }): ReactNode {
  const units = useUnits();
  const setting: Setting = { on, today: useToday(), units };
  const scroller = useRef<HTMLElement>(null);
  const cards = useVirtualizer({
    count: grid.rows.length,
    getScrollElement: () => scroller.current,
    estimateSize: () => 52 + grid.traits.length * 92,
    overscan: 3,
  });
  return (
    <section
      ref={scroller}
      className="note-cards"
      aria-label={`Notes of ${grid.place?.code ?? 'the garden'}, ${grid.year}`}
    >
      <ol style={{ height: cards.getTotalSize() }}>
        {cards.getVirtualItems().map((item) => {
          const row = grid.rows[item.index]!;
          return (
            <li
              key={row.plant}
              ref={cards.measureElement}
              data-index={item.index}
              style={{ transform: `translateY(${item.start}px)` }}
            >
              <h2>
                {row.plantCode}
                <span className="soft small">
                  {[row.walk !== null && `no. ${row.walk}`, row.genetName].filter(Boolean).join(', ')}
                </span>
              </h2>
              {grid.traits.map((trait) => (
                <TraitLine key={trait.code} row={row} trait={trait} setting={setting} />
              ))}
            </li>
          );
        })}
      </ol>
    </section>
  );
}

function TraitLine({
  row,
  trait,
  setting,
}: {
  readonly row: NoteGridRow;
  readonly trait: TraitShown;
  readonly setting: Setting;
}): ReactNode {
  const state = useNotesEntered();
  const { text, before } = cellShown(state, row, trait, Number(setting.on.slice(0, 4)), setting.units);
  const enter = (typed: string): void => {
    const entry = entering(state, row, trait, typed, setting);
    if (entry) noteStore.enter([entry]);
  };
  const words = [...(keptAs[trait.sort] === 'date' ? ['today'] : []), ...Object.values(statesByKey)];
  return (
    <div className="note-line">
      <p className="note-line-head">
        <span>
          {trait.name} <span className="soft">{measureOf(trait.unit, setting.units).unit}</span>
        </span>
        {before && (
          <span className="soft small">
            {before.year}: {before.shown}
          </span>
        )}
      </p>
      <div className="note-line-body">
        {keptAs[trait.sort] === 'class' ? (
          <select
            aria-label={`${trait.name}, ${row.plantCode}`}
            value={trait.classes.includes(text) ? text : ''}
            onChange={(event) => enter(event.target.value)}
          >
            <option value="">{trait.classes.includes(text) || text === '' ? '' : text}</option>
            {trait.classes.map((word) => (
              <option key={word}>{word}</option>
            ))}
          </select>
        ) : (
          <NoteBox row={row} trait={trait} setting={setting} />
        )}
        {words.map((word) => (
          <button
            key={word}
            type="button"
            className="note-word"
            aria-pressed={text === word}
            aria-label={`${word}: ${trait.name}, ${row.plantCode}`}
            onClick={() => enter(word)}
          >
            {word}
          </button>
        ))}
      </div>
    </div>
  );
}
