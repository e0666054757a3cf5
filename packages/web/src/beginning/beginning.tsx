import { Link, useNavigate } from '@tanstack/react-router';
import { lazy, type ReactNode, Suspense, useState } from 'react';
import { useWork } from '../api/jobs.ts';
import { queryClient } from '../api/queries.ts';
import { Button } from '../parts/button.tsx';
import { Page } from '../parts/page.tsx';
import { Problem, Progress } from '../parts/states.tsx';
import './beginning.css';
import { SpikeDrawing } from './spike-drawing.tsx';

const AddPlant = lazy(() => import('../plants/add-plant.tsx'));

/** An empty programme and the three ways to begin. */
export function Beginning(): ReactNode {
  const navigate = useNavigate();
  const [adding, setAdding] = useState(false);
  const demo = useWork<unknown>(async () => {
    await queryClient.invalidateQueries();
    await navigate({ to: '/plants' });
  });
  return (
    <Page title="An empty garden" line="Nothing is recorded yet. There are three ways to begin.">
      <div className="beginning">
        <ol className="ways">
          <li>
            <h2>Look round an invented garden</h2>
            <p>
              Eight years of a nursery that breeds lupins: its accessions, crosses, seedlings, beds and notes.
              All of it is made up, so you can try everything and break nothing.
            </p>
            {demo.busy ? (
              <Progress
                share={demo.state?.progress ?? null}
                words={demo.state?.step || 'Growing the garden'}
              />
            ) : (
              <Button look="main" onClick={() => demo.begin('demo')}>
                Open the invented garden
              </Button>
            )}
            {demo.error !== null && <Problem error={demo.error} />}
          </li>
          <li>
            <h2>Bring your own files</h2>
            <p>
              Spreadsheets as you have them, headers and all. You see what each column becomes before anything
              is stored, and have your plants ranked a few minutes later.
            </p>
            <Link to="/import" className="button button-plain">
              Choose a file
            </Link>
          </li>
          <li>
            <h2>Enter the first plant by hand</h2>
            <p>One plant, what it is and where it stands. The rest can follow when there is time.</p>
            <Button onClick={() => setAdding(true)}>Enter a plant</Button>
          </li>
        </ol>
        <SpikeDrawing />
      </div>
      {adding && (
        <Suspense>
          <AddPlant onClose={() => setAdding(false)} />
        </Suspense>
      )}
    </Page>
  );
}
