import type { ReactNode } from 'react';
import { oneOfEachGenet, plantsRoundFirst } from '../garden-lists.ts';
import { scaledPicture } from '../media/scaled-picture.ts';
import { FindSheet } from '../sheets/find-sheet.tsx';
import { OtherPlantSheet } from '../sheets/other-plant-sheet.tsx';
import { PlanSheet } from '../sheets/plan-sheet.tsx';
import { RemarkSheet } from '../sheets/remark-sheet.tsx';
import type { AtHand, StopGiven } from './use-stop.ts';

export type SheetOpen = 'find' | 'plan' | 'remark' | 'other' | null;

/** The sheet that lies over the stop, if one does. */
export function StopSheets({
  open,
  onPlan,
  onClose,
  given: { at, garden, inHand },
  stop,
}: {
  readonly open: SheetOpen;
  readonly onPlan: () => void;
  readonly onClose: () => void;
  readonly given: StopGiven;
  readonly stop: AtHand;
}): ReactNode {
  const { plant, trait } = at;
  /** Closes the sheet before what was chosen on it is done. */
  const closing =
    <Given extends unknown[]>(work: (...given: Given) => void) =>
    (...given: Given): void => {
      onClose();
      work(...given);
    };
  switch (open) {
    case 'find':
      return (
        <FindSheet
          plants={plantsRoundFirst(inHand, garden)}
          onPlant={closing(stop.jump)}
          onPlan={onPlan}
          onClose={onClose}
        />
      );
    case 'plan':
      return (
        <PlanSheet
          bed={stop.bed}
          inBed={stop.inBed}
          here={plant.id}
          isDone={stop.isDone}
          onPlant={closing(stop.jump)}
          onClose={onClose}
        />
      );
    case 'remark':
      return (
        <RemarkSheet
          about={`${plant.code}, ${trait.name}`}
          typed={stop.remarkTyped}
          setTyped={stop.setRemarkTyped}
          onRemark={closing(stop.remark)}
          onMemo={closing((memo) => stop.media(async () => memo, false))}
          onPicture={closing((file) => stop.media(() => scaledPicture(file), false))}
          onClose={onClose}
        />
      );
    case 'other':
      return (
        <OtherPlantSheet
          plant={plant}
          genets={oneOfEachGenet(garden)}
          today={garden.today}
          owner={garden.person.role === 'owner'}
          onFound={closing(stop.foundToBe)}
          onClose={onClose}
        />
      );
    case null:
      return null;
  }
}
