import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { Button } from '../parts/button.tsx';
import { InlineField } from '../parts/field.tsx';
import { Page } from '../parts/page.tsx';
import { SearchBox } from '../parts/search-box.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { PictureList } from './picture-list.tsx';
import { picturesQuery } from './queries.ts';

const route = getRouteApi('/pictures');
const perPage = 60;
const withPictures: readonly string[] = ['pictured', 'spoken', 'coloured'];

/** Pictures and memos of the whole programme, found by plant, trait and day. */
export function PicturesFound(): ReactNode {
  const { page = 0, ...sought } = route.useSearch();
  const navigate = route.useNavigate();
  const traits = useQuery(traitsQuery).data ?? [];
  const found = useQuery(picturesQuery(sought, page, perPage));
  const seek = (change: Partial<typeof sought>): void =>
    void navigate({ search: { ...sought, ...change, page: undefined }, replace: true });
  const pages = Math.ceil((found.data?.total ?? 0) / perPage);
  const asked = Object.values(sought).some((word) => word !== undefined);

  return (
    <Page
      title="Pictures"
      line={found.data ? counted(found.data.total, 'picture or memo', 'pictures and memos') : null}
      controls={
        <>
          <SearchBox
            name="Plants with pictures"
            placeholder="Plant or name"
            value={sought.search ?? ''}
            onSearch={(search) => seek({ search: search || undefined })}
          />
          <InlineField label="Trait">
            {(id) => (
              <select
                id={id}
                value={sought.trait ?? ''}
                onChange={(event) => seek({ trait: event.target.value || undefined })}
              >
                <option value="">any</option>
                {traits
                  .filter(({ sort, code }) => withPictures.includes(sort) || code === sought.trait)
                  .map(({ code, name }) => (
                    <option key={code} value={code}>
                      {name}
                    </option>
                  ))}
              </select>
            )}
          </InlineField>
          {(['from', 'to'] as const).map((end) => (
            <InlineField key={end} label={end === 'from' ? 'From' : 'To'}>
              {(id) => (
                <input
                  id={id}
                  type="date"
                  value={sought[end] ?? ''}
                  onChange={(event) => seek({ [end]: event.target.value || undefined })}
                />
              )}
            </InlineField>
          ))}
        </>
      }
    >
      {found.error && !found.data ? (
        <Problem error={found.error} again={() => void found.refetch()} />
      ) : !found.data ? (
        <Loading what="Looking for pictures" />
      ) : found.data.total === 0 ? (
        <Nothing title={asked ? 'No picture is like that' : 'No pictures yet'}>
          <p>
            {asked
              ? 'Ask for less: another day, any trait, a part of the code.'
              : 'Pictures and memos taken on a walk come here with their plant, trait and day.'}
          </p>
        </Nothing>
      ) : (
        <>
          <PictureList pictures={found.data.pictures} />
          {pages > 1 && (
            <p className="pictures-page">
              <Button
                disabled={page === 0}
                onClick={() => void navigate({ search: { ...sought, page: page - 1 || undefined } })}
              >
                Later ones
              </Button>
              {page + 1} of {pages}
              <Button
                disabled={page + 1 >= pages}
                onClick={() => void navigate({ search: { ...sought, page: page + 1 } })}
              >
                Earlier ones
              </Button>
            </p>
          )}
        </>
      )}
    </Page>
  );
}
