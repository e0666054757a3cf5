import { keptAs, measureOf, type NoteValue } from '@keelrow/breeding/facts';
import type { HeldPlace, HeldPlant, TraitShown } from '@keelrow/server/contract';
import { useState } from 'react';
import type { NoteInHand } from '../../phone/notes-in-hand.ts';
import type { HoldingsInHand } from '../../phone/use-holdings.ts';
import { mediaFact } from '../media/media-facts.ts';
import { type Along, dayBefore, noteFact, noteToCorrect, type Said, saidBy } from '../note-facts.ts';
import { arriveAt, plantBeside } from '../order/next-stop.ts';
import type { RoundInHand } from '../round-in-hand.ts';
import type { Round, Stop } from '../rounds/round.ts';
import { dayChosen, noteDay, standingAt, typedAt, typing } from '../rounds/round-changes.ts';
import { rounds } from '../rounds/round-store.ts';
import type { FoundToBe } from '../sheets/other-plant-sheet.tsx';
import { comparedWith } from '../slips/compared.ts';
import { comparable, slipQuestion } from '../slips/slip.ts';
import type { Entering } from '../use-entering.ts';
import { problemInShown } from '../value-problem.ts';

/** A value that is asked about before it is kept. */
interface Asked {
  readonly words: string;
  readonly value: NoteValue;
  readonly typed: string;
  readonly way: string | undefined;
}

export interface StopGiven {
  readonly round: Round;
  readonly inHand: RoundInHand;
  readonly at: { readonly plant: HeldPlant; readonly trait: TraitShown };
  readonly garden: HoldingsInHand;
  readonly entering: Entering;
}

type Media = Parameters<typeof mediaFact>[0];

/** What stands at a stop, and all that can be said and done there. */
export interface AtHand {
  readonly on: string;
  readonly yesterday: string;
  readonly bed: HeldPlace | null;
  readonly inBed: readonly HeldPlant[];
  readonly notes: readonly NoteInHand[];
  readonly label: TraitShown | null;
  readonly labelNow: NoteInHand | null;
  /** The note that a new one would correct. */
  readonly corrects: NoteInHand | null;
  readonly typed: string;
  readonly remarkTyped: string;
  readonly asked: Asked | null;
  readonly refused: string | null;
  isDone(plant: string): boolean;
  setTyped(typed: string): void;
  setRemarkTyped(typed: string): void;
  /** Takes a value: refuses it in words, asks about it, or enters it and moves on. */
  keep(value: NoteValue, typed?: string, way?: string): void;
  keepAsked(): void;
  mend(): void;
  state(state: Exclude<Said['state'], 'seen'>): void;
  remark(remark: string): void;
  /** A picture or memo as the value itself, or along with it. */
  media(take: () => Promise<Media>, isValue: boolean): void;
  noteLabel(word: string): void;
  foundToBe(found: FoundToBe): void;
  chooseDay(day: string): void;
  nextTrait(): void;
  jump(plant: HeldPlant): void;
  /** To the plant so many places on; null where there is none. */
  beside(by: number): (() => void) | null;
}

export function useStop({ round, inHand, at, garden, entering }: StopGiven): AtHand {
  const { plant, trait } = at;
  const { settings, person, today } = garden;
  const { walk, traits } = inHand;
  const here: Stop = { plant: plant.id, trait: trait.id };
  // A remark that was begun has a box of its own beside the value's.
  const remarkBox: Stop = { plant: plant.id, trait: `${trait.id} remark` };
  const [asked, setAsked] = useState<Asked | null>(null);
  const [refused, setRefused] = useState<string | null>(null);

  const change = (to: (now: Round) => Round): void => rounds.change(round.id, to);
  const typed = typedAt(round, here);
  const yesterday = dayBefore(today);
  // What is kept as a date says its own day; it is noted today.
  const on = keptAs[trait.sort] === 'date' ? today : noteDay(round, today, yesterday);
  const notes = garden.notesOn(plant.id);
  const corrects = noteToCorrect(notes, trait, on, person.code);
  const label = garden.traits.find(({ code }) => code === 'label') ?? null;

  const say = (
    said: Said,
    along: Along,
    then: 'next' | 'next plant' | 'stay',
    text = typed,
  ): Promise<void> => {
    setAsked(null);
    setRefused(null);
    const fact = noteFact(plant, trait, on, said, along, corrects, settings.units);
    return entering.enter(async () => [fact], then, text);
  };
  const sayLabel = (word: string, remark?: string): void => {
    if (!label) return;
    const before = noteToCorrect(notes, label, on, person.code);
    const said: Said = { state: 'seen', value: word };
    const fact = noteFact(plant, label, on, said, remark ? { remark } : {}, before, settings.units);
    void entering.enter(async () => [fact], 'stay', typed);
  };
  const goTo = (stop: Stop): void =>
    change((now) => ({
      ...standingAt(now, stop),
      backTo: walk.plants.includes(stop.plant) ? null : (now.backTo ?? here),
    }));

  return {
    on,
    yesterday,
    notes,
    label,
    corrects,
    typed,
    asked,
    refused,
    bed: garden.places.find(({ id }) => id === plant.bed) ?? null,
    inBed: plant.bed === null ? [plant] : garden.plantsInBed(plant.bed),
    labelNow: notes.find((note) => note.trait === label?.id && note.on === on) ?? null,
    remarkTyped: typedAt(round, remarkBox),
    isDone: (id) => traits.every((one) => walk.isDone(id, one.id)),
    setTyped: (text) => {
      setAsked(null);
      setRefused(null);
      change((now) => typing(now, here, text));
    },
    setRemarkTyped: (text) => change((now) => typing(now, remarkBox, text)),
    keep: (value, text = '', way) => {
      const problem = problemInShown(trait, value, settings.units);
      const number = problem === null ? comparable(trait, value) : null;
      const words =
        number === null
          ? null
          : slipQuestion(
              trait,
              number,
              comparedWith(garden, plant, trait, today),
              measureOf(trait.unit, settings.units),
            );
      if (problem === null && words === null) {
        void say({ state: 'seen', value }, way === undefined ? {} : { way }, 'next', text);
        return;
      }
      change((now) => typing(now, here, text));
      setRefused(problem);
      setAsked(words === null ? null : { words, value, typed: text, way });
    },
    keepAsked: () => {
      if (!asked) return;
      const { value, way } = asked;
      void say({ state: 'seen', value }, way === undefined ? {} : { way }, 'next', asked.typed);
    },
    mend: () => setAsked(null),
    state: (state) =>
      void say({ state, value: null }, {}, state === 'dead' || state === 'missing' ? 'next plant' : 'next'),
    remark: (remark) =>
      void say(saidBy(corrects), { remark }, 'stay').then(() => change((now) => typing(now, remarkBox, ''))),
    media: (take, isValue) =>
      void entering.enter(
        async () => {
          const { hash, ...media } = await mediaFact(await take(), plant, trait, on);
          const said: Said = isValue ? { state: 'seen', value: null } : saidBy(corrects);
          // A note has room for one: the first stays with it, later ones are found by plant, trait and day.
          if (!isValue && corrects?.photo) return [media];
          return [media, noteFact(plant, trait, on, said, { photo: hash }, corrects, settings.units)];
        },
        isValue ? 'next' : 'stay',
        typed,
      ),
    noteLabel: (word) => sayLabel(word),
    foundToBe: ({ genet, genetCode, from, earlierNotes }) => {
      if (person.role !== 'owner') {
        sayLabel(
          label?.classes.includes('wrong') ? 'wrong' : (label?.classes[0] ?? ''),
          `seems to be ${genetCode}`,
        );
        return;
      }
      const row = { plant: plant.id, genet, on: from, earlier_notes: earlierNotes };
      const words = `${plant.code} is ${genetCode}`;
      void entering.enter(async () => [{ kind: 'identities', row, words }], 'stay', typed);
    },
    chooseDay: (day) => change((now) => dayChosen(now, today, day === yesterday ? yesterday : null)),
    nextTrait: () => goTo({ ...here, trait: traits[(traits.indexOf(trait) + 1) % traits.length]!.id }),
    jump: ({ id }) => goTo(arriveAt(walk, id)),
    beside: (by) => {
      const stop = walk.plants.includes(plant.id) ? plantBeside(walk, plant.id, by) : round.backTo;
      return stop && (() => goTo(stop));
    },
  };
}
