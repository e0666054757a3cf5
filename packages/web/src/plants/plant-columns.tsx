import type { PlantListRow, PlantSort } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { dateInWords } from '../parts/words.ts';

export interface PlantColumn {
  readonly name: string;
  readonly sort?: PlantSort;
  readonly width: string;
  readonly number?: boolean;
  readonly show: (row: PlantListRow) => ReactNode;
}

/** Possible parents as people read them: `A:0.5;B:0.3` becomes `A 50% or B 30%`. */
function parentWords(written: string): string {
  if (written === '') return 'unknown';
  return written
    .split(';')
    .map((one) => one.replace(/:([0-9.]+)$/, (_, chance: string) => ` ${Math.round(Number(chance) * 100)}%`))
    .join(' or ');
}

/** `A × B`, `A selfed`, or the one that is known; empty where neither is. */
export function parentage(row: Pick<PlantListRow, 'seedParent' | 'pollenParent'>): string {
  const { seedParent, pollenParent } = row;
  if (seedParent === '' && pollenParent === '') return '';
  if (pollenParent === 'self') return `${parentWords(seedParent)} selfed`;
  return `${parentWords(seedParent)} × ${parentWords(pollenParent)}`;
}

export const plantColumns: readonly PlantColumn[] = [
  { name: 'Name', sort: 'name', width: 'minmax(7rem, 1.1fr)', show: (row) => row.name },
  { name: 'Kind', sort: 'taxon', width: 'minmax(7rem, 1fr)', show: (row) => row.taxon && <i>{row.taxon}</i> },
  { name: 'Origin', sort: 'origin', width: '6.5rem', show: (row) => row.origin },
  { name: 'Parents', width: 'minmax(9rem, 1.5fr)', show: parentage },
  { name: 'Raised', sort: 'raisedIn', width: '4.5rem', number: true, show: (row) => row.raisedIn },
  {
    name: 'Alive',
    sort: 'alive',
    width: '4.75rem',
    number: true,
    show: (row) => (
      <>
        {row.alive} <span className="soft">of {row.plants}</span>
      </>
    ),
  },
  { name: 'Where', width: 'minmax(5rem, 0.7fr)', show: (row) => row.places.join(', ') },
  {
    name: 'Notes',
    sort: 'notes',
    width: '4.5rem',
    number: true,
    show: (row) => row.notes.toLocaleString('en-US'),
  },
  {
    name: 'Last noted',
    sort: 'lastNotedOn',
    width: '7rem',
    show: (row) => row.lastNotedOn && dateInWords(row.lastNotedOn),
  },
  { name: 'Decision', sort: 'decision', width: '6.5rem', show: (row) => row.decision },
];
