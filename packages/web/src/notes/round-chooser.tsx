import { dateOfDay, dayNumber } from '@keelrow/breeding/facts';
import type { BedShown, TraitShown } from '@keelrow/server/contract';
import { type ReactNode, useId } from 'react';
import { Button } from '../parts/button.tsx';
import { InlineField } from '../parts/field.tsx';
import { counted } from '../parts/words.ts';
import type { Round } from './round.ts';

interface ChooserProps {
  readonly round: Round;
  readonly beds: readonly BedShown[];
  readonly traits: readonly TraitShown[];
  readonly today: string;
  readonly onChoose: (round: Round) => void;
}

export function RoundChooser({ round, beds, traits, today, onChoose }: ChooserProps): ReactNode {
  const yesterday = dateOfDay(dayNumber(today) - 1);
  return (
    <div className="round">
      <InlineField label="Bed">
        {(id) => (
          <select
            id={id}
            value={round.place}
            onChange={(event) => onChoose({ ...round, place: event.target.value })}
          >
            {beds.map((bed) => (
              <option key={bed.id} value={bed.code}>
                {bed.name && bed.name !== bed.code ? `${bed.code} ${bed.name}` : bed.code} (
                {counted(bed.plants, 'plant')})
              </option>
            ))}
          </select>
        )}
      </InlineField>
      <InlineField label="Day">
        {(id) => (
          <input
            id={id}
            type="date"
            max={today}
            value={round.on}
            onChange={(event) => event.target.value && onChoose({ ...round, on: event.target.value })}
          />
        )}
      </InlineField>
      {round.on !== today && <Button onClick={() => onChoose({ ...round, on: today })}>Today</Button>}
      {round.on !== yesterday && (
        <Button onClick={() => onChoose({ ...round, on: yesterday })}>Yesterday</Button>
      )}
      <TraitsChooser round={round} traits={traits} onChoose={onChoose} />
    </div>
  );
}

/** The traits of a round, behind a button that names them. */
export function TraitsChooser({
  round,
  traits,
  onChoose,
}: Pick<ChooserProps, 'round' | 'traits' | 'onChoose'>): ReactNode {
  const id = useId();
  const names = round.traits.map((code) => traits.find((trait) => trait.code === code)?.name ?? code);
  return (
    <div className="round-traits">
      <Button popoverTarget={id} className="round-traits-button">
        {names.length === 0 ? 'Choose traits' : `Traits: ${names.join(', ')}`}
      </Button>
      <fieldset id={id} popover="auto" className="round-list">
        <legend>Traits to note</legend>
        <div className="round-columns">
          {traits.map((trait) => (
            <label key={trait.code} className="ticked">
              <input
                type="checkbox"
                checked={round.traits.includes(trait.code)}
                onChange={(event) =>
                  onChoose({
                    ...round,
                    traits: event.target.checked
                      ? [...round.traits, trait.code]
                      : round.traits.filter((code) => code !== trait.code),
                  })
                }
              />
              <span>
                {trait.name} <span className="small soft">{trait.unit ?? trait.sort}</span>
              </span>
            </label>
          ))}
        </div>
      </fieldset>
    </div>
  );
}
