import { keptAs, measureOf, type NoteValue, type Units } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';
import { useEffect, useRef } from 'react';
import { readMeasured } from '../entries/measured-text.ts';
import { openIn } from '../entries/tens-and-units.ts';
import { dayBefore, type Said } from '../note-facts.ts';

interface Keys {
  readonly trait: TraitShown;
  readonly typed: string;
  readonly setTyped: (typed: string) => void;
  readonly keep: (value: NoteValue, typed?: string) => void;
  readonly today: string;
  readonly units: Units;
  readonly onState: (state: Exclude<Said['state'], 'seen'>) => void;
  readonly onBefore: (() => void) | null;
  readonly onAfter: (() => void) | null;
  readonly onUndo: (() => void) | null;
}

const states = { n: 'not yet', s: 'skipped', d: 'dead', m: 'missing' } as const;

/**
 * The walk by keyboard, for the office: figures and Enter for numbers, a figure for a point of a scale or a class,
 * T and Y for today and yesterday, N, S, D and M for the states, arrows along the bed, Control-Z to undo.
 */
export function useWalkKeys(active: boolean, keys: Keys): void {
  const latest = useRef(keys);
  latest.current = keys;
  useEffect(() => {
    if (!active) return;
    const press = (event: KeyboardEvent): void => {
      const target = event.target as HTMLElement | null;
      if (target?.closest('input, textarea, select, dialog')) return;
      const action = actionOf(event, latest.current, target?.closest('button, a') != null);
      if (!action) return;
      event.preventDefault();
      // After a figure is typed Enter keeps the number, whatever key on the screen was touched before.
      if (/^\d$/.test(event.key)) target?.blur();
      action();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [active]);
}

function actionOf(event: KeyboardEvent, keys: Keys, onControl: boolean): (() => void) | null {
  const { trait, onBefore, onAfter, onUndo, onState } = keys;
  if (event.ctrlKey || event.metaKey) return event.key.toLowerCase() === 'z' ? onUndo : null;
  if (event.altKey) return null;
  if (event.key === 'ArrowLeft') return onBefore;
  if (event.key === 'ArrowRight') return onAfter;
  const letter = event.key.toLowerCase();
  if (Object.hasOwn(states, letter)) return () => onState(states[letter as keyof typeof states]);
  switch (keptAs[trait.sort]) {
    case 'number':
      return trait.sort === 'scored' ? point(event.key, keys) : figures(event.key, keys, onControl);
    case 'date':
      if (letter === 't') return () => keys.keep(keys.today);
      return letter === 'y' ? () => keys.keep(dayBefore(keys.today)) : null;
    case 'class': {
      const word = trait.classes[Number(event.key) - 1];
      return word === undefined ? null : () => keys.keep(word);
    }
    default:
      return null;
  }
}

const point = (key: string, { keep }: Keys): (() => void) | null =>
  /^\d$/.test(key) ? () => keep(Number(key), key) : null;

function figures(
  key: string,
  { trait, typed, setTyped, keep, units }: Keys,
  onControl: boolean,
): (() => void) | null {
  const text = openIn(typed) ? '' : typed;
  if (/^[\d.,/-]$/.test(key) || (key === ' ' && text !== '' && !onControl)) return () => setTyped(text + key);
  if (key === 'Backspace') return () => setTyped(text.slice(0, -1));
  if (key === 'Escape') return () => setTyped('');
  const number = readMeasured(text);
  if (key !== 'Enter' || onControl || number === null) return null;
  return () => keep(measureOf(trait.unit, units).toStored(number), text);
}
