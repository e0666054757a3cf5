import type {
  ImportPlan,
  ImportPreview,
  ImportStored,
  ProposalWanted,
  Upload,
} from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { useWork } from '../api/jobs.ts';
import { queryClient } from '../api/queries.ts';
import { part } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { Problem, Progress } from '../parts/states.tsx';
import { storedWords } from './what-is-stored.tsx';

interface StoreProps {
  readonly upload: Upload;
  readonly plan: ImportPlan;
  readonly preview: ImportPreview;
  /** A preview is being made; null when the one shown is up to date. */
  readonly reading: string | null;
  /** Reads the same file again as rows of another kind. */
  readonly onReadAs: (wanted: ProposalWanted, again: boolean) => void;
}

/** All of the file or nothing of it. */
export function StoreImport({ upload, plan, preview, reading, onReadAs }: StoreProps): ReactNode {
  const work = useWork<ImportStored>(() => void queryClient.invalidateQueries());
  const done = work.state?.state === 'done' ? work.state.result : undefined;
  const total = Object.values(preview.wouldStore).reduce((sum, count) => sum + count, 0);
  const open = preview.problemCount + preview.questions.length;

  if (done) {
    const stored = storedWords(done.stored);
    const traits = plan.columns.flatMap((use) => (use && 'trait' in use ? [use.trait] : []));
    return (
      <div className="stored" role="status">
        <p className="title">{stored ? `Stored: ${stored}.` : 'Everything in it was there already.'}</p>
        <div className="answers">
          <Link to="/plants" className="button button-main">
            See your plants
          </Link>
          {plan.kind !== 'notes' && (
            <Button onClick={() => onReadAs({ kind: 'notes', sheet: upload.sheet ?? undefined }, true)}>
              Take in the values noted in it, too
            </Button>
          )}
          {plan.kind === 'notes' && (
            <Link
              to="/compare"
              search={traits.length === 1 ? { trait: traits[0] } : {}}
              className="button button-plain"
            >
              Rank them
            </Link>
          )}
        </div>
      </div>
    );
  }
  return (
    <>
      {open > 0 && (
        <p>Everything above has to be mended or answered first; then all of it is stored at once.</p>
      )}
      {open === 0 && total === 0 && <p>There is nothing new in this file.</p>}
      {work.busy ? (
        <div className="compare-work">
          <Progress share={work.state?.progress ?? null} words={work.state?.step || 'Storing'} />
          <Button onClick={work.stop}>Stop; store nothing</Button>
        </div>
      ) : (
        <div>
          <Button
            look="main"
            disabled={open > 0 || total === 0 || reading !== null}
            onClick={() => work.begin(`imports/${part(upload.upload)}/store`, { plan })}
          >
            {total > 0 ? `Store ${storedWords(preview.wouldStore)}` : 'Store'}
          </Button>
        </div>
      )}
      {work.state?.state === 'stopped' && !work.busy && <p>Stopped; nothing was stored.</p>}
      {work.error !== null && <Problem error={work.error} />}
    </>
  );
}
