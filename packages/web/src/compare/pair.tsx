import type { EstimatesReport, GenetEstimate, PairCompared } from '@keelrow/server/contract';
import { type ReactNode, useEffect } from 'react';
import { useWork } from '../api/jobs.ts';
import { IconButton } from '../parts/button.tsx';
import { Problem, Progress } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { MoreNotes } from './more-notes.tsx';
import './pair.css';
import { eightyPercent, pairSentence } from './pair-words.ts';
import type { TraitWriting } from './trait-shown.ts';

interface PairProps {
  readonly report: EstimatesReport;
  readonly writing: TraitWriting;
  readonly held: readonly GenetEstimate[];
  readonly onForget: () => void;
}

const nameOf = ({ code, name }: GenetEstimate): string => name ?? code;

/** Two genets held against each other: which truly is better, how sure, and what more notes would tell. */
export function Pair({ report, writing, held, onForget }: PairProps): ReactNode {
  const work = useWork<PairCompared>();
  const [a, b] = held;
  const { begin, forget } = work;
  useEffect(() => {
    if (a && b) begin('estimates/compare', { trait: report.trait.code, a: a.id, b: b.id });
    else forget();
  }, [a, b, report.trait.code, begin, forget]);

  const pair = work.state?.state === 'done' ? work.state.result : undefined;
  return (
    <section className="pair" aria-labelledby="pair">
      <header>
        <h2 id="pair">{a && b ? `${nameOf(a)} against ${nameOf(b)}` : `${a ? nameOf(a) : ''} against …`}</h2>
        <IconButton icon="close" name="Put the two away" onClick={onForget} />
      </header>
      {a && !b && <p className="soft">Tick a second one.</p>}
      {work.busy && a && b && (
        <Progress share={work.state?.progress ?? null} words="Holding them against each other" />
      )}
      {work.error !== null && <Problem error={work.error} />}
      {pair && a && b && (
        <>
          <p className="pair-sentence" role="status">
            {pairSentence(pair, {
              a: nameOf(a),
              b: nameOf(b),
              trait: report.trait.name,
              wanted: report.trait.wanted,
              isDay: writing.isDay,
            })}
          </p>
          <p>
            {nameOf(a)} is estimated {writing.difference(Math.abs(pair.difference), pair.se)}{' '}
            {direction(pair.difference, writing)} {nameOf(b)}; the true difference lies 8 times out of 10
            between {side(pair.low, pair, writing)} and {side(pair.high, pair, writing)}.
          </p>
          <MoreNotes pair={pair} writing={writing} />
          <p className="small soft">{moreWords(pair, writing)}</p>
        </>
      )}
    </section>
  );
}

const direction = (difference: number, { isDay }: TraitWriting): string =>
  isDay ? (difference < 0 ? 'before' : 'after') : difference < 0 ? 'below' : 'above';

const side = (value: number, { se }: PairCompared, writing: TraitWriting): string =>
  `${writing.difference(Math.abs(value), se)} ${value < 0 ? (writing.isDay ? 'earlier' : 'less') : writing.isDay ? 'later' : 'more'}`;

/** What notes of further years, or of further plants, would do to the doubt. */
function moreWords(
  { seInDoubt, withMoreYears, withMorePlants }: PairCompared,
  writing: TraitWriting,
): string {
  const half = (error: number): string => writing.difference(eightyPercent * error, error);
  const [years, plants] = [withMoreYears.at(-1), withMorePlants.at(-1)];
  const ways = [
    years &&
      `with ${counted(years.years, 'more year')} of notes on both it would be ${half(years.seInDoubt)}`,
    plants &&
      `with ${counted(plants.plants, 'more plant')} of each, noted for a year, ${half(plants.seInDoubt)}`,
  ].filter(Boolean);
  if (ways.length === 0) return '';
  return `Now the range is the difference give or take ${half(seInDoubt)}; ${ways.join('; ')}.`;
}
