import type { TraitShown } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { dateInWords } from '../parts/words.ts';
import type { PlantShown } from './bed-drawing.tsx';

/** The plant whose mark is chosen, in words. */
export function PlantInBed({
  plant,
  trait,
}: {
  readonly plant: PlantShown | undefined;
  readonly trait: TraitShown | null;
}): ReactNode {
  if (!plant)
    return <p className="soft">Touch a mark to see which plant it is; arrow keys walk from mark to mark.</p>;
  return (
    <p className="plant-in-bed" role="status">
      <Link to="/plants/$genet" params={{ genet: plant.genetCode }}>
        {plant.code}
      </Link>{' '}
      {plant.genetName ?? ''}
      {trait && (
        <>
          {' '}
          · {trait.name}: <strong>{plant.shown ?? 'not noted'}</strong>
        </>
      )}
      <span className="soft">
        {' '}
        · {plant.walk !== null && `no. ${plant.walk} in walking order, `}
        {plant.plantedOn ? `planted ${dateInWords(plant.plantedOn)}` : 'planting day not known'}
        {!plant.alive && ', gone'}
      </span>
    </p>
  );
}
