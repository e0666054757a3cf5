import type { PlantOfGenet } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import { lazy, type ReactNode, Suspense, useState } from 'react';
import { Button } from '../parts/button.tsx';
import { dateInWords } from '../parts/words.ts';
import './genet-plants.css';

const AddToGenet = lazy(() => import('./add-to-genet.tsx'));

export function GenetPlants({
  genet,
  plants,
}: {
  readonly genet: string;
  readonly plants: readonly PlantOfGenet[];
}): ReactNode {
  const [adding, setAdding] = useState(false);
  return (
    <>
      {plants.length === 0 ? (
        <p className="soft">No plant of it stands anywhere yet.</p>
      ) : (
        <ul className="genet-plants">
          {plants.map((plant) => (
            <li key={plant.id} className={plant.goneOn ? 'genet-plant-gone' : ''}>
              <strong>{plant.code}</strong>
              <span>
                {plant.place ? (
                  <Link to="/beds/$bed" params={{ bed: plant.place }}>
                    {plant.placeName ?? plant.place}
                  </Link>
                ) : (
                  'place not known'
                )}
                {plant.walk !== null && <span className="soft"> no. {plant.walk}</span>}
              </span>
              <span className="small soft">{lifeOf(plant)}</span>
              {plant.labelledAs && <span className="small">its label says {plant.labelledAs}</span>}
            </li>
          ))}
        </ul>
      )}
      <div>
        <Button icon="plus" onClick={() => setAdding(true)}>
          Add a plant of it
        </Button>
      </div>
      {adding && (
        <Suspense>
          <AddToGenet genet={genet} onClose={() => setAdding(false)} />
        </Suspense>
      )}
    </>
  );
}

function lifeOf({ raisedAs, plantedOn, goneOn, goneWhy }: PlantOfGenet): string {
  return [
    raisedAs,
    plantedOn && `planted ${dateInWords(plantedOn)}`,
    goneOn && `gone ${dateInWords(goneOn)}${goneWhy ? `: ${goneWhy}` : ''}`,
  ]
    .filter(Boolean)
    .join(', ');
}
