import type { TraitShown } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { dateInWords } from '../parts/words.ts';
import type { PlantShown } from './bed-drawing.tsx';
import { colourOf, type ValueSteps } from './value-steps.ts';

interface RowsProps {
  readonly plants: readonly PlantShown[];
  readonly trait: TraitShown | null;
  readonly steps: ValueSteps | null;
}

export function BedRows({ plants, trait, steps }: RowsProps): ReactNode {
  const inOrder = [...plants].sort((a, b) => (a.walk ?? Number.MAX_VALUE) - (b.walk ?? Number.MAX_VALUE));
  return (
    <div className="bed-rows">
      <table>
        <thead>
          <tr>
            <th scope="col">Walk</th>
            <th scope="col">Plant</th>
            <th scope="col">Genet</th>
            {trait && <th scope="col">{trait.name}</th>}
            <th scope="col">Planted</th>
          </tr>
        </thead>
        <tbody>
          {inOrder.map((plant) => {
            const step = steps?.stepOf(plant.value) ?? null;
            return (
              <tr key={plant.id}>
                <td className="soft">{plant.walk ?? ''}</td>
                <th scope="row">
                  {plant.code}
                  {!plant.alive && <span className="soft small"> gone</span>}
                </th>
                <td>
                  <Link to="/plants/$genet" params={{ genet: plant.genetCode }} preload={false}>
                    {plant.genetName ?? plant.genetCode}
                  </Link>
                </td>
                {trait && (
                  <td>
                    {step !== null && (
                      <span
                        className="step-bar"
                        style={{ background: colourOf(step), width: `${step.number * 0.5}rem` }}
                      />
                    )}
                    {plant.shown ?? <span className="soft">not noted</span>}
                  </td>
                )}
                <td className="soft">{plant.plantedOn ? dateInWords(plant.plantedOn) : ''}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
