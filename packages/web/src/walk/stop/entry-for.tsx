import type { TraitSort } from '@keelrow/breeding/facts';
import type { ReactNode } from 'react';
import { ClassedEntry } from '../entries/classed-entry.tsx';
import { ColouredEntry } from '../entries/coloured-entry.tsx';
import { DayEntry } from '../entries/day-entry.tsx';
import type { EntryProps } from '../entries/entry-props.ts';
import { PicturedEntry, SpokenEntry } from '../entries/media-entry.tsx';
import { NumberEntry } from '../entries/number-entry.tsx';
import { ScoredEntry } from '../entries/scored-entry.tsx';
import { WrittenEntry } from '../entries/written-entry.tsx';
import type { MemoTaken } from '../media/record-memo.ts';

interface AllEntries extends EntryProps {
  readonly onPicture: (file: File) => void;
  readonly onMemo: (memo: MemoTaken) => void;
}

const entries: Record<TraitSort, (props: AllEntries) => ReactNode> = {
  measured: NumberEntry,
  counted: NumberEntry,
  scored: ScoredEntry,
  staged: DayEntry,
  dated: DayEntry,
  classed: ClassedEntry,
  coloured: ColouredEntry,
  pictured: PicturedEntry,
  spoken: SpokenEntry,
  written: WrittenEntry,
};

/** Sorts whose value is built up in a box. */
export const hasBox = (sort: TraitSort): boolean => sort === 'measured' || sort === 'counted';

/** The entry that suits what is noted. */
export function EntryFor(props: AllEntries): ReactNode {
  const Entry = entries[props.trait.sort];
  return <Entry {...props} />;
}
