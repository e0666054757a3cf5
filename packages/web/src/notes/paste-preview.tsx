import type { NoteGrid } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { counted } from '../parts/words.ts';
import { entering } from './cell-model.ts';
import type { Setting } from './entry.ts';
import { standingNote } from './grid-state.ts';
import { noteStore, useNotesEntered } from './note-store.ts';
import { layBlock } from './paste.ts';

interface PreviewProps {
  readonly grid: NoteGrid;
  readonly setting: Setting;
  readonly block: string[][];
  readonly from: { readonly row: number; readonly column: number };
  readonly onClose: () => void;
}

const mostShown = 60;

/** What pasting would do, before it is done. */
export function PastePreview({ grid, setting, block, from, onClose }: PreviewProps): ReactNode {
  const state = useNotesEntered();
  const size = { rows: grid.rows.length, columns: grid.traits.length };
  const { cells, outside } = layBlock(block, from, size);
  const lines = cells.map(({ row, column, text }) => {
    const [plant, trait] = [grid.rows[row]!, grid.traits[column]!];
    return { plant, trait, text, entry: entering(state, plant, trait, text, setting) };
  });
  const changes = lines.flatMap(({ entry }) => entry ?? []);
  const wrong = changes.filter(({ problem }) => problem !== null).length;
  const corrections = changes.filter(
    ({ key, first }) => standingNote(state.cells.get(key), first) !== null,
  ).length;
  return (
    <Dialog title="Paste these notes?" onClose={onClose} wide>
      <ul className="paste-counts">
        <li>{counted(changes.length - wrong, 'note')} to enter</li>
        {corrections > 0 && <li>earlier notes that are replaced: {corrections}</li>}
        {lines.length > changes.length && <li>{lines.length - changes.length} already stand there</li>}
        {wrong > 0 && <li>{wrong} to mend: put in the box as pasted, and not sent before it is right</li>}
        {outside > 0 && <li>{outside} lie beyond the last plant or trait and are left out</li>}
      </ul>
      <table className="paste-table">
        <thead>
          <tr>
            <th scope="col">Plant</th>
            <th scope="col">Trait</th>
            <th scope="col">Pasted</th>
            <th scope="col">What it does</th>
          </tr>
        </thead>
        <tbody>
          {lines.slice(0, mostShown).map(({ plant, trait, text, entry }) => {
            const before = entry && standingNote(state.cells.get(entry.key), entry.first);
            return (
              <tr key={`${plant.plant} ${trait.code}`}>
                <th scope="row">{plant.plantCode}</th>
                <td>{trait.name}</td>
                <td>{text}</td>
                <td className={entry?.problem ? 'paste-wrong' : ''}>
                  {entry?.problem ??
                    (entry ? (before ? `replaces ${before.shown}` : 'new') : 'stands there already')}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {lines.length > mostShown && <p className="soft">and {lines.length - mostShown} more</p>}
      <div className="dialog-actions">
        <Button onClick={onClose}>Leave it</Button>
        <Button
          look="main"
          disabled={changes.length === 0}
          onClick={() => {
            noteStore.enter(changes);
            onClose();
          }}
        >
          Enter {counted(changes.length, 'note')}
        </Button>
      </div>
    </Dialog>
  );
}
