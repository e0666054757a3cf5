import type { HeldPlant } from '@keelrow/server/contract';
import { type ReactNode, useState } from 'react';
import { dateInWords } from '../../parts/words.ts';
import { Calendar } from '../entries/calendar.tsx';
import { plantsByTail } from '../order/code-tail.ts';
import { Sheet } from './sheet.tsx';
import { TailKeys } from './tail-keys.tsx';

export interface FoundToBe {
  readonly genet: string;
  readonly genetCode: string;
  readonly from: string;
  readonly earlierNotes: 'move' | 'stay';
}

/** A plant that is not what its label says: what it is, from which day on, and whose its earlier notes are. */
export function OtherPlantSheet({
  plant,
  genets,
  today,
  owner,
  onFound,
  onClose,
}: {
  readonly plant: HeldPlant;
  /** One plant for each genet on the phone. */
  readonly genets: readonly HeldPlant[];
  readonly today: string;
  /** An owner's word holds; a recorder's is a note, for the owner to settle. */
  readonly owner: boolean;
  readonly onFound: (found: FoundToBe) => void;
  readonly onClose: () => void;
}): ReactNode {
  const [typed, setTyped] = useState('');
  const [genet, setGenet] = useState<HeldPlant | null>(null);
  const [from, setFrom] = useState(today);
  const [asksDay, setAsksDay] = useState(false);
  const others = genets.filter((one) => one.genet !== plant.genet);
  const found = plantsByTail(
    others.map((one) => ({ code: one.genetCode, one })),
    typed,
  ).plants;
  const say = (earlierNotes: 'move' | 'stay'): void => {
    if (genet) onFound({ genet: genet.genet, genetCode: genet.genetCode, from, earlierNotes });
  };
  return (
    <Sheet title={`${plant.code} is another plant`} onClose={onClose}>
      {!genet ? (
        <div className="walk-find">
          <ul className="walk-found" aria-live="polite">
            {typed === '' && (
              <li>
                <p>Which one is it? Type the end of its number.</p>
              </li>
            )}
            {typed !== '' &&
              found.slice(0, 12).map(({ one }) => (
                <li key={one.genet}>
                  <button type="button" className="walk-key" onClick={() => setGenet(one)}>
                    <strong>{one.genetCode}</strong> {one.genetName ?? one.parents}
                  </button>
                </li>
              ))}
            {typed !== '' && found.length === 0 && (
              <li>
                <p>Nothing on this phone has a number that ends in “{typed}”.</p>
              </li>
            )}
          </ul>
          <TailKeys typed={typed} setTyped={setTyped} />
        </div>
      ) : asksDay ? (
        <Calendar
          today={today}
          onDay={(day) => {
            setFrom(day);
            setAsksDay(false);
          }}
          onClose={() => setAsksDay(false)}
        />
      ) : (
        <div className="walk-written">
          <p>
            {plant.code} is <strong>{genet.genetCode}</strong> {genet.genetName}, from {dateInWords(from)} on.
          </p>
          {owner ? (
            <>
              <button type="button" className="walk-key walk-large" onClick={() => setAsksDay(true)}>
                From another day
              </button>
              <button type="button" className="walk-keep walk-large" onClick={() => say('move')}>
                It always was: its earlier notes go along
              </button>
              <button type="button" className="walk-keep walk-large" onClick={() => say('stay')}>
                It was exchanged then: earlier notes stay with {plant.genetCode}
              </button>
            </>
          ) : (
            <>
              <p>This is kept as a note that the label is wrong; the owner settles it.</p>
              <button type="button" className="walk-keep walk-large" onClick={() => say('stay')}>
                Keep the note
              </button>
            </>
          )}
        </div>
      )}
    </Sheet>
  );
}
