import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Round, Stop } from '../../src/walk/rounds/round.ts';
import {
  againFrom,
  dayChosen,
  entered,
  noteDay,
  standingAt,
  stepBack,
  typedAt,
  typing,
} from '../../src/walk/rounds/round-changes.ts';
import { roundName } from '../../src/walk/rounds/round-name.ts';
import { RoundStore } from '../../src/walk/rounds/round-store.ts';

const round: Round = {
  id: 'r',
  name: 'Spikes in bed 4',
  beds: ['b'],
  traits: ['t'],
  direction: { way: 'numbered', end: 'first', side: 'first' },
  since: '2031-05-20',
  at: null,
  ended: false,
  backTo: null,
  steps: [],
  drafts: [],
  yesterdayOf: null,
};
const stop = (plant: string): Stop => ({ plant, trait: 't' });

/** As much of a browser's storage as the rounds use. */
const storage = (first?: string) => {
  let text = first ?? null;
  return {
    getItem: () => text,
    setItem: (_: string, value: string) => {
      text = value;
    },
  };
};

describe('a round', () => {
  test('undo goes back step by step to where each was entered, with the box as it was', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(9), fc.string({ maxLength: 4 })), { maxLength: 20 }),
        (entries) => {
          let now = round;
          for (const [plant, typed] of entries) {
            now = typing(now, stop(`p${plant}`), typed);
            now = entered(now, { ...stop(`p${plant}`), facts: [], words: '', typed }, stop('next'));
            expect(typedAt(now, stop(`p${plant}`))).toBe('');
          }
          for (const [plant, typed] of [...entries].reverse()) {
            now = stepBack(now);
            expect(now.at).toEqual(stop(`p${plant}`));
            expect(typedAt(now, stop(`p${plant}`))).toBe(typed);
          }
          expect(now.steps).toEqual([]);
          expect(stepBack(now)).toBe(now);
        },
      ),
    );
  });

  test('what was begun in several boxes stays in each', () => {
    const now = standingAt(typing(typing(round, stop('a'), '12'), stop('b'), '7_'), stop('c'));
    expect([typedAt(now, stop('a')), typedAt(now, stop('b')), typedAt(now, stop('c'))]).toEqual([
      '12',
      '7_',
      '',
    ]);
    expect(typing(now, stop('a'), '').drafts).toHaveLength(1);
  });

  test('yesterday holds for the day on which it was chosen, and its notes count for the walk', () => {
    const now = dayChosen(round, '2031-05-20', '2031-05-19');
    expect(noteDay(now, '2031-05-20', '2031-05-19')).toBe('2031-05-19');
    expect(now.since).toBe('2031-05-19');
    expect(noteDay(now, '2031-05-21', '2031-05-20')).toBe('2031-05-21');
    expect(noteDay(dayChosen(now, '2031-05-20', null), '2031-05-20', '2031-05-19')).toBe('2031-05-20');
    expect(againFrom({ ...now, ended: true }, '2031-05-27')).toMatchObject({
      since: '2031-05-27',
      at: null,
      ended: false,
    });
  });

  test('the end of the walk is kept', () => {
    expect(standingAt(round, null)).toMatchObject({ at: null, ended: true });
    expect(standingAt({ ...round, ended: true }, stop('a')).ended).toBe(false);
  });

  test('is called by what is noted where', () => {
    expect(roundName(['Spikes'], ['bed 4'])).toBe('Spikes in bed 4');
    expect(roundName(['Spikes', 'Height', 'Width'], ['bed 4', 'bed 5', 'bed 6', 'bed 7'])).toBe(
      'Spikes, Height and 1 more in bed 4, bed 5 and 2 more',
    );
  });
});

describe('the rounds of a phone', () => {
  test('are there again after a restart, with place, steps and begun boxes', () => {
    const disk = storage();
    const store = new RoundStore(disk);
    store.add(round);
    store.add({ ...round, id: 's' });
    store.change('r', (now) => typing(standingAt(now, stop('p')), stop('p'), '15_'));
    store.putAway('s');
    expect(new RoundStore(disk).all()).toEqual(store.all());
    expect(new RoundStore(disk).all()).toMatchObject([
      { id: 'r', at: stop('p'), drafts: [{ typed: '15_' }] },
    ]);
  });

  test('are none where the disk holds anything else, and go on where it takes nothing', () => {
    for (const text of ['', 'x', '{}', '[1, null, {"id": 3}]'])
      expect(new RoundStore(storage(text)).all()).toEqual([]);
    const full = new RoundStore({
      getItem: () => null,
      setItem: () => {
        throw new DOMException('full', 'QuotaExceededError');
      },
    });
    full.add(round);
    expect(full.all()).toEqual([round]);
  });

  test('tell those who listen', () => {
    const store = new RoundStore(storage());
    let heard = 0;
    const stop = store.subscribe(() => heard++);
    store.add(round);
    stop();
    store.putAway('r');
    expect(heard).toBe(1);
  });
});
