import type { TraitModel } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { among, shareShown } from '../estimates/share-words.ts';
import { counted } from '../parts/words.ts';

/** The few numbers that say how far the estimates of a trait can be trusted, each with what it means. */
export function TraitFigures({ report }: { readonly report: TraitModel['report'] }): ReactNode {
  const { heritability, repeatability, accuracy, kinship, scale } = report;
  return (
    <dl className="trait-figures">
      <dt>Notes</dt>
      <dd>
        {counted(report.notes, 'note')} on {counted(report.genets, 'genet')} in{' '}
        {counted(report.years.length, 'year')}
      </dd>
      <dt>Handed on by parents</dt>
      <dd>
        {heritability ? (
          <>
            <strong>{shareShown(heritability)}</strong> of the {among} (the heritability)
          </>
        ) : (
          'these notes cannot tell'
        )}
      </dd>
      <dt>Lies between genets</dt>
      <dd>
        {repeatability ? (
          <>
            <strong>{shareShown(repeatability)}</strong> of the {among} (the repeatability); the rest is
            chance and circumstance
          </>
        ) : (
          'these notes cannot tell'
        )}
      </dd>
      <dt>Estimate and truth</dt>
      <dd>
        {accuracy === null ? (
          'how well they go together cannot be told'
        ) : (
          <>
            go together with a correlation of about <strong>{accuracy.toFixed(2)}</strong>; 1 would be perfect
          </>
        )}
      </dd>
      <dt>Scale</dt>
      <dd>{scale.words || scale.name}</dd>
      <dt>Kinship</dt>
      <dd>
        {kinship.words.length > 0
          ? kinship.words.map((line) => <p key={line}>{line}</p>)
          : kinship.used
            ? 'parents, sibs and clones tell on each genet'
            : 'parents, sibs and clones do not tell on a genet here'}
      </dd>
    </dl>
  );
}
