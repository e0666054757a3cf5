import { keptAs } from '@keelrow/breeding/facts';
import type { TraitSummary } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { colourOnScreen } from '../parts/colour-on-screen.ts';
import { type Measure, measureOf, useUnits } from '../parts/measure.ts';
import { counted, dayInWords, plainNumber } from '../parts/words.ts';
import './notes-by-trait.css';

type YearOfNotes = TraitSummary['byYear'][number];

/** Every noted trait with a small strip a year: the mean as a mark, least to most as a bar, on one scale. */
export function NotesByTrait({ traits }: { readonly traits: readonly TraitSummary[] }): ReactNode {
  if (traits.length === 0) return <p className="soft">Nothing noted yet.</p>;
  return (
    <div className="trait-strips">
      {traits.map((trait) => (
        <Trait key={trait.trait} trait={trait} />
      ))}
    </div>
  );
}

function Trait({ trait }: { readonly trait: TraitSummary }): ReactNode {
  const units = useUnits();
  const measure = measureOf(trait.unit, units);
  const numbers = trait.byYear.flatMap(({ mean, least, most }) =>
    [mean, least, most].filter((value) => value !== null),
  );
  const [low, high] = [Math.min(...numbers), Math.max(...numbers)];
  return (
    <section className="trait-strip" aria-label={trait.name}>
      <h3>
        {trait.name}
        {measure.unit && <span className="soft small"> {measure.unit}</span>}
      </h3>
      <ol>
        {trait.byYear.map((year) => (
          <li key={year.year}>
            <span className="trait-year">{year.year}</span>
            {year.mean === null ? (
              <span className="trait-words">
                <Words sort={trait.sort} words={year.words} />
              </span>
            ) : (
              <>
                <Strip year={year} low={low} high={high} />
                <span className="trait-mean">{shown(year.mean, trait, measure, year.year)}</span>
              </>
            )}
            <span className="small soft">{range(year, trait, measure)}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** Colours as swatches, other words as they are. */
function Words({
  sort,
  words,
}: {
  readonly sort: TraitSummary['sort'];
  readonly words: readonly string[];
}): ReactNode {
  if (sort !== 'coloured') return words.join(', ');
  return (
    <span className="swatches">
      {[...new Set(words)].map((word) => (
        <Swatch key={word} word={word} />
      ))}
    </span>
  );
}

function Swatch({ word }: { readonly word: string }): ReactNode {
  const [l, a, b] = word.match(/-?[0-9.]+/g)?.map(Number) ?? [];
  if (l === undefined || a === undefined || b === undefined) return word;
  return (
    <span
      className="swatch"
      role="img"
      aria-label={word}
      title={word}
      style={{ background: colourOnScreen({ l, a, b }) }}
    />
  );
}

const isDay = ({ sort }: TraitSummary): boolean => keptAs[sort] === 'date';

const shown = (value: number, trait: TraitSummary, measure: Measure, year: number): string =>
  isDay(trait) ? dayInWords(value, year) : plainNumber(Number(measure.toShown(value).toFixed(1)));

function range(year: YearOfNotes, trait: TraitSummary, measure: Measure): string {
  const notes = counted(year.notes, 'note');
  if (year.least === null || year.most === null || year.least === year.most) return notes;
  return `${shown(year.least, trait, measure, year.year)} to ${shown(year.most, trait, measure, year.year)}, ${notes}`;
}

function Strip({
  year,
  low,
  high,
}: {
  readonly year: YearOfNotes;
  readonly low: number;
  readonly high: number;
}): ReactNode {
  const at = (value: number): number => (high > low ? 6 + ((value - low) / (high - low)) * 108 : 60);
  return (
    <svg className="strip" viewBox="0 0 120 16" width="120" height="16" aria-hidden="true">
      <path className="strip-scale" d="M0 8H120" />
      {year.least !== null && year.most !== null && (
        <path className="strip-range" d={`M${at(year.least)} 8H${at(year.most)}`} />
      )}
      <circle className="strip-mean" cx={at(year.mean ?? low)} cy={8} r={4.5} />
    </svg>
  );
}
