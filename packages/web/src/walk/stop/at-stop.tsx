import { measureOf } from '@keelrow/breeding/facts';
import { type ReactNode, useState } from 'react';
import { usualNumbers } from '../garden-lists.ts';
import { scaledPicture } from '../media/scaled-picture.ts';
import { valueInWords } from '../note-facts.ts';
import { BedStrip } from './bed-strip.tsx';
import { DayChoice } from './day-choice.tsx';
import { EntryFor, hasBox } from './entry-for.tsx';
import { Foot } from './foot.tsx';
import { PlantHead } from './plant-head.tsx';
import { Question } from './question.tsx';
import { States } from './states.tsx';
import { type SheetOpen, StopSheets } from './stop-sheets.tsx';
import { TraitHead } from './trait-head.tsx';
import { type StopGiven, useStop } from './use-stop.ts';
import { useWalkKeys } from './use-walk-keys.ts';

/** One plant and one trait: all that is said of it goes to the phone's disk before the next one is shown. */
export function AtStop(given: StopGiven): ReactNode {
  const { round, inHand, at, garden, entering } = given;
  const { plant, trait } = at;
  const { today, settings } = garden;
  const { units } = settings;
  const stop = useStop(given);
  const [sheet, setSheet] = useState<SheetOpen>(null);
  const measure = measureOf(trait.unit, units);
  const latest = garden.latest(plant.id, trait.id);
  const onUndo = round.steps.length > 0 ? () => void entering.undo() : null;
  const trouble = stop.refused ?? entering.trouble;

  useWalkKeys(sheet === null && stop.asked === null && !entering.busy, {
    trait,
    today,
    units,
    typed: stop.typed,
    setTyped: stop.setTyped,
    keep: stop.keep,
    onState: stop.state,
    onBefore: stop.beside(-1),
    onAfter: stop.beside(1),
    onUndo,
  });

  return (
    <>
      <main className="walk-main settling">
        <PlantHead
          plant={plant}
          bed={stop.bed}
          inBed={stop.inBed}
          units={units}
          marks={[
            ...(plant.goneOn !== null && plant.goneOn <= today ? ['gone'] : []),
            ...(stop.labelNow ? [`label ${String(stop.labelNow.value)}`] : []),
            ...(inHand.walk.plants.includes(plant.id) ? [] : ['not in this round']),
          ]}
        />
        <BedStrip
          bed={stop.bed}
          inBed={stop.inBed}
          plant={plant}
          isDone={stop.isDone}
          onOpen={() => setSheet('plan')}
        />
        <TraitHead
          trait={trait}
          number={inHand.traits.indexOf(trait) + 1}
          of={inHand.traits.length}
          units={units}
          typed={hasBox(trait.sort) ? stop.typed : null}
          now={latest.thisSeason}
          before={latest.lastSeason}
          onNextTrait={stop.nextTrait}
        />
        {trouble && (
          <p className="walk-refused" role="alert">
            {trouble}
          </p>
        )}
        <div className="walk-entry">
          {stop.asked ? (
            <Question
              words={stop.asked.words}
              value={valueInWords(trait, stop.asked.value, units)}
              onKeep={stop.keepAsked}
              onMend={stop.mend}
            />
          ) : (
            <EntryFor
              trait={trait}
              units={units}
              dayChoice={
                <DayChoice on={stop.on} today={today} yesterday={stop.yesterday} onChoose={stop.chooseDay} />
              }
              today={today}
              typed={stop.typed}
              setTyped={stop.setTyped}
              keep={stop.keep}
              usual={usualNumbers(garden, stop.inBed, trait).map(measure.toShown)}
              onPicture={(file) => stop.media(() => scaledPicture(file), true)}
              onMemo={(memo) => stop.media(async () => memo, true)}
            />
          )}
        </div>
        <States
          label={stop.label}
          labelNow={stop.labelNow ? String(stop.labelNow.value) : null}
          onState={stop.state}
          onLabel={stop.noteLabel}
          onOtherPlant={() => setSheet('other')}
        />
      </main>
      <Foot
        onBefore={stop.beside(-1)}
        onAfter={stop.beside(1)}
        onUndo={onUndo}
        onFind={() => setSheet('find')}
        onRemark={() => setSheet('remark')}
        hasRemark={Boolean(stop.corrects?.remark ?? stop.corrects?.photo)}
      />
      <StopSheets
        open={sheet}
        onPlan={() => setSheet('plan')}
        onClose={() => setSheet(null)}
        given={given}
        stop={stop}
      />
    </>
  );
}
