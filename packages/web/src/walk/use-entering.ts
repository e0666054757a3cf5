import type { HeldPlant, TraitShown } from '@keelrow/server/contract';
import { useRef, useState } from 'react';
import { wordsOf } from '../api/api-error.ts';
import type { NewFact } from '../phone/facts.ts';
import { phone } from '../phone/store.ts';
import { nextStop } from './order/next-stop.ts';
import type { RoundInHand } from './round-in-hand.ts';
import type { Round, Stop } from './rounds/round.ts';
import { entered, stepBack } from './rounds/round-changes.ts';
import { rounds } from './rounds/round-store.ts';

export interface Entering {
  /** Something is on its way to the disk. */
  readonly busy: boolean;
  /** Why the last one did not get there; what was typed stays. */
  readonly trouble: string | null;
  /** What the last entering or undoing was, for those who listen. */
  readonly told: string;
  /**
   * Writes facts down and only then moves on: to the next stop, over the whole plant, or not at all. The last fact's
   * words name the step. make may itself fail in words, such as a picture that cannot be read.
   */
  enter(
    make: () => Promise<readonly NewFact[]>,
    then: 'next' | 'next plant' | 'stay',
    typed?: string,
  ): Promise<void>;
  undo(): Promise<void>;
}

/** Entering at a stop of a round: one at a time, on the disk before the screen moves on, each one undone as a whole. */
export function useEntering(
  round: Round,
  inHand: RoundInHand,
  at: { readonly plant: HeldPlant; readonly trait: TraitShown } | null,
): Entering {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [told, setTold] = useState('');
  const running = useRef(false);

  const oneAtATime = async (work: () => Promise<string>): Promise<void> => {
    if (running.current) return;
    running.current = true;
    setBusy(true);
    try {
      const words = await work();
      setTrouble(null);
      setTold(words);
    } catch (error) {
      setTrouble(wordsOf(error).problem);
    } finally {
      running.current = false;
      setBusy(false);
    }
  };

  return {
    busy,
    trouble,
    told,
    enter: (make, then, typed = '') =>
      oneAtATime(async () => {
        const facts = await make();
        const ids = await phone.enter(facts);
        const words = facts.at(-1)?.words ?? '';
        if (!at) return words;
        const here: Stop = { plant: at.plant.id, trait: at.trait.id };
        const step = { ...here, facts: ids, words, typed };
        const next =
          then === 'stay'
            ? here
            : nextStop(inHand.walk, onWalk(round, inHand, here), {
                ...here,
                wholePlant: then === 'next plant',
              });
        rounds.change(round.id, (now) => ({
          ...entered(now, step, next),
          backTo: next?.plant === here.plant ? now.backTo : null,
        }));
        return `Kept on this phone: ${words}`;
      }),
    undo: () =>
      oneAtATime(async () => {
        const step = round.steps.at(-1);
        if (!step) return '';
        for (const id of [...step.facts].reverse()) await phone.withdrawOrForget(id, 'undone on the walk');
        rounds.change(round.id, stepBack);
        return `Undone: ${step.words}`;
      }),
  };
}

/** Where the walk goes on from: here, or where it was left for a plant of another bed. */
const onWalk = (round: Round, { walk }: RoundInHand, here: Stop): Stop | null =>
  walk.plants.includes(here.plant) || round.backTo === null ? here : round.backTo;
