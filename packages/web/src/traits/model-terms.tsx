import type { TraitModel } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Icon } from '../parts/icon.tsx';
import { Lines } from '../parts/lines.tsx';
import { capital } from '../parts/words.ts';

/** Every source of differences that was thought of: whether it is in the model, and why. */
export function ModelTerms({ model: { terms, report } }: { readonly model: TraitModel }): ReactNode {
  if (terms.length === 0) {
    return (
      <>
        <Lines title="Taken into account" lines={report.tookIntoAccount} />
        <Lines title="Could not be told apart" lines={report.couldNotSeparate} />
      </>
    );
  }
  const inOrder = [...terms].sort((a, b) => Number(b.entered) - Number(a.entered));
  return (
    <table className="model-terms">
      <thead>
        <tr>
          <th scope="col">Source of differences</th>
          <th scope="col">In the model</th>
          <th scope="col">Why</th>
        </tr>
      </thead>
      <tbody>
        {inOrder.map(({ term, words, entered, why }) => (
          <tr key={term}>
            <th scope="row">{capital(words)}</th>
            <td className="term-entered">
              <Icon name={entered ? 'done' : 'close'} size={16} />
              {entered ? 'taken into account' : 'left out'}
            </td>
            <td>{capital(why.replace(/^(Taken into account|Left out): /, ''))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
