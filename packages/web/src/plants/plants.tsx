import { useQuery } from '@tanstack/react-query';
import { getRouteApi, Link } from '@tanstack/react-router';
import { lazy, type ReactNode, Suspense, useState } from 'react';
import { type PlantsWanted, plantsQuery } from '../api/queries.ts';
import { Button } from '../parts/button.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { usePhone } from '../parts/use-media.ts';
import { counted } from '../parts/words.ts';
import { PlantFilters } from './plant-filters.tsx';
import { PlantTable } from './plant-table.tsx';
import { sortedBy } from './plants-search.ts';

const AddPlant = lazy(() => import('./add-plant.tsx'));
const route = getRouteApi('/plants');

export function Plants(): ReactNode {
  const wanted = route.useSearch();
  const navigate = route.useNavigate();
  const list = useQuery(plantsQuery(wanted, 0));
  const phone = usePhone();
  const [adding, setAdding] = useState(false);
  const want = (next: PlantsWanted): void => void navigate({ search: next, replace: true });
  const filtered = Boolean(wanted.search || wanted.origin || wanted.place || wanted.decision || wanted.alive);

  return (
    <Page
      fills
      title="Plants"
      line="What grows here, where, and from what parents."
      actions={
        <Button icon="plus" onClick={() => setAdding(true)}>
          Add a plant
        </Button>
      }
    >
      <PlantFilters wanted={wanted} list={list.data} onWant={want} />
      <p className="small soft" role="status">
        {list.data && `${counted(list.data.total, 'genet')}${filtered ? ' as chosen' : ''}`}
      </p>
      {list.error ? (
        <Problem error={list.error} again={() => void list.refetch()} />
      ) : !list.data ? (
        <Loading what="Fetching the plants" />
      ) : list.data.total === 0 && filtered ? (
        <Nothing title="No plant is like that">
          <p>Fewer conditions or fewer letters find more.</p>
          <Button onClick={() => want({ sort: wanted.sort, descending: wanted.descending })}>
            Show all plants
          </Button>
        </Nothing>
      ) : list.data.total === 0 ? (
        <Nothing title="No plants yet">
          <p>
            <Link to="/">See the three ways to begin</Link>, or add the first plant by hand.
          </p>
        </Nothing>
      ) : (
        <PlantTable
          key={`${phone} ${JSON.stringify(wanted)}`}
          wanted={wanted}
          total={list.data.total}
          onSort={(sort) => want(sortedBy(wanted, sort))}
        />
      )}
      {adding && (
        <Suspense>
          <AddPlant onClose={() => setAdding(false)} />
        </Suspense>
      )}
    </Page>
  );
}
