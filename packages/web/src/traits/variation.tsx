import type { TraitModel } from '@keelrow/server/contract';
import { type ReactNode, useMemo } from 'react';
import { traitWriting } from '../compare/trait-shown.ts';
import { useUnits } from '../parts/measure.ts';
import { asPreciseAs, plainNumber } from '../parts/words.ts';
import './variation.css';
import { partsOf, type VariationPart } from './variation-parts.ts';

/** The variation among single notes as one bar, parted by what it comes from; each part numbered and told below. */
export function Variation({ report }: { readonly report: TraitModel['report'] }): ReactNode {
  const units = useUnits();
  const writing = useMemo(() => traitWriting(report.trait, units), [report.trait, units]);
  const parts = partsOf(report.variances);
  // On another scale than that of the notes a spread has no unit that anyone could picture.
  const asNoted = report.scale.name === 'as noted';
  return (
    <figure className="variation">
      <Bar parts={parts} />
      <table className="variation-table">
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">What it is</th>
            <th scope="col" className="number">
              Share
            </th>
            {asNoted && (
              <th scope="col" className="number">
                Spread{writing.unit ? `, ${writing.unit}` : ''}
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {parts.map((part) => (
            <tr key={part.term}>
              <td>
                <span className={`variation-key ${part.look}`}>{part.number}</span>
              </td>
              <th scope="row">{part.words}</th>
              <td className="number">{shareOf(part)}</td>
              {asNoted && (
                <td className="number">
                  {part.spreadSe === null
                    ? plainNumber(writing.span(part.spread))
                    : `${asPreciseAs(writing.span(part.spread), writing.span(part.spreadSe))} ± ${asPreciseAs(
                        writing.span(part.spreadSe),
                        writing.span(part.spreadSe),
                      )}`}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">
        {asNoted
          ? 'The spread is what such a part alone would do: two thirds of all lie within it to either side. ± is its standard error.'
          : 'The shares are of the differences on the scale of the sums.'}
      </p>
    </figure>
  );
}

const shareOf = ({ share }: VariationPart): string =>
  share > 0 && share < 0.005 ? '<1%' : `${Math.round(share * 100)}%`;

function Bar({ parts }: { readonly parts: readonly VariationPart[] }): ReactNode {
  return (
    <div className="variation-bar" aria-hidden="true">
      {parts
        .filter(({ share }) => share > 0)
        .map(({ term, number, share, look }) => (
          <span key={term} className={look} style={{ flexGrow: share, flexBasis: 0 }}>
            {share >= 0.04 && number}
          </span>
        ))}
    </div>
  );
}
