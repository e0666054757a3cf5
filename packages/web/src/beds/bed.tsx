import { keptAs } from '@keelrow/breeding/facts';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { bedQuery, traitsQuery } from '../api/queries.ts';
import { InlineField } from '../parts/field.tsx';
import { useUnits } from '../parts/measure.ts';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { useToday } from '../parts/use-today.ts';
import { counted } from '../parts/words.ts';
import './bed.css';
import { BedDrawing } from './bed-drawing.tsx';
import { conditionsOf } from './bed-list.tsx';
import { BedRows } from './bed-rows.tsx';
import { PlantInBed } from './plant-in-bed.tsx';
import { StepsLegend } from './steps-legend.tsx';
import { valueSteps } from './value-steps.ts';

const route = getRouteApi('/beds/$bed');

export function Bed(): ReactNode {
  const { bed: code } = route.useParams();
  const { trait, year } = route.useSearch();
  const today = useToday();
  const units = useUnits();
  const thisYear = Number(today.slice(0, 4));
  const bed = useQuery(bedQuery(code, trait, trait ? (year ?? thisYear) : undefined));
  const [chosen, setChosen] = useState<string | null>(null);

  if (bed.error || !bed.data) {
    return (
      <Page title={code} line={<Link to="/beds">All beds</Link>}>
        {bed.error ? (
          <Problem error={bed.error} again={() => void bed.refetch()} />
        ) : (
          <Loading what="Fetching the bed" />
        )}
      </Page>
    );
  }
  const { bed: shown, plants } = bed.data;
  const steps = bed.data.trait
    ? valueSteps(
        bed.data.trait,
        plants.map(({ value }) => value),
        units,
      )
    : null;
  const placed = plants.filter(({ eastM, northM }) => eastM !== null && northM !== null);
  const chosenPlant = plants.find(({ id }) => id === chosen);
  const drawn = shown.lengthM !== null && shown.widthM !== null && placed.length > 0;
  const alive = plants.filter((plant) => plant.alive).length;
  return (
    <Page
      title={shown.name && shown.name !== shown.code ? `${shown.code} · ${shown.name}` : shown.code}
      line={
        <>
          {[`${alive} alive of ${counted(plants.length, 'plant')}`, conditionsOf(shown)]
            .filter(Boolean)
            .join(' · ')}{' '}
          · <Link to="/beds">all beds</Link> ·{' '}
          <Link to="/notes" search={{ place: shown.code }}>
            take notes here
          </Link>{' '}
          ·{' '}
          <Link to="/labels" search={{ of: 'plants', place: shown.code }}>
            print labels
          </Link>
        </>
      }
      controls={<ColourBy trait={trait} year={year ?? thisYear} />}
    >
      {plants.length === 0 ? (
        <Nothing title="No plant stands here">
          <p>Plants stand in a bed when their place says so.</p>
        </Nothing>
      ) : (
        <>
          {drawn && (
            <BedDrawing
              bed={{ ...shown, lengthM: shown.lengthM ?? 0, widthM: shown.widthM ?? 0 }}
              plants={placed}
              steps={steps}
              chosen={chosen}
              onChoose={setChosen}
            />
          )}
          {drawn && <StepsLegend trait={bed.data.trait} steps={steps} year={year ?? thisYear} />}
          {drawn && <PlantInBed plant={chosenPlant} trait={bed.data.trait} />}
          <details className="fold" open={!drawn}>
            <summary>{drawn ? 'The same plants as a list' : 'Plants in walking order'}</summary>
            <BedRows plants={plants} trait={bed.data.trait} steps={steps} />
          </details>
        </>
      )}
    </Page>
  );
}

function ColourBy({ trait, year }: { readonly trait: string | undefined; readonly year: number }): ReactNode {
  const traits = useQuery(traitsQuery);
  const navigate = route.useNavigate();
  const shown = (traits.data ?? []).filter(({ sort }) => ['number', 'date', 'class'].includes(keptAs[sort]));
  return (
    <>
      <InlineField label="Coloured by">
        {(id) => (
          <select
            id={id}
            value={trait ?? ''}
            onChange={(event) =>
              void navigate({ search: { trait: event.target.value || undefined, year }, replace: true })
            }
          >
            <option value="">nothing</option>
            {shown.map(({ code, name }) => (
              <option key={code} value={code}>
                {name}
              </option>
            ))}
          </select>
        )}
      </InlineField>
      {trait && (
        <InlineField label="Year">
          {(id) => (
            <input
              id={id}
              type="number"
              className="bed-year"
              value={year}
              onChange={(event) =>
                void navigate({ search: { trait, year: Number(event.target.value) }, replace: true })
              }
            />
          )}
        </InlineField>
      )}
    </>
  );
}
