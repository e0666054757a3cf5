import type { LabelRow, LabelSubject, LabelsDrawn, LabelsWanted } from '@keelrow/server/contract';
import { keepPreviousData, useMutation, useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import { bedsQuery } from '../api/queries.ts';
import { get, send, sendForFile } from '../api/talk.ts';
import { Button } from '../parts/button.tsx';
import { InlineField } from '../parts/field.tsx';
import { Lines } from '../parts/lines.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Nothing, Problem } from '../parts/states.tsx';
import { counted } from '../parts/words.ts';
import { FormChooser } from './form-chooser.tsx';
import { keepForm, lastForm } from './forms.ts';
import { PageDrawing } from './label-drawing.tsx';
import './labels.css';
import { RowChooser } from './row-chooser.tsx';
import { saveFile } from './save-file.ts';

const subjects: readonly { of: LabelSubject; name: string }[] = [
  { of: 'plants', name: 'Plants of a bed' },
  { of: 'crosses', name: 'Crosses' },
  { of: 'seed-lots', name: 'Seed lots' },
  { of: 'sowings', name: 'Sowings, seed pots' },
  { of: 'batches', name: 'Cutting batches' },
];

const route = getRouteApi('/labels');

/** Which labels, of what size; as they will be printed; the PDF. */
export function Labels(): ReactNode {
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const [chosen, setChosen] = useState(lastForm);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const beds = useQuery(bedsQuery);
  const of = search.of ?? 'plants';
  const place =
    of === 'plants' ? (search.place ?? beds.data?.beds.find(({ plants }) => plants > 0)?.code) : undefined;
  const rows = useQuery({
    queryKey: ['labels', of, place ?? null],
    queryFn: ({ signal }) => get<readonly LabelRow[]>('labels', { of, place }, signal),
    enabled: of !== 'plants' || beds.data !== undefined,
  });
  const codes = (rows.data ?? []).map(({ code }) => code).filter((code) => !left.has(code));
  const { form, lead, copies } = chosen;
  const wanted: LabelsWanted = { of, ...(place ? { place } : {}), codes, form, lead, copies };
  const drawn = useQuery({
    queryKey: ['labels-drawn', wanted],
    queryFn: ({ signal }) => send<LabelsDrawn>('POST', 'labels/drawn', wanted, signal),
    enabled: codes.length > 0,
    placeholderData: keepPreviousData,
    gcTime: 0,
  });
  const print = useMutation({
    mutationFn: () => sendForFile('labels/pdf', wanted),
    onSuccess: (pdf) => saveFile(pdf, `labels-${place ?? of}.pdf`),
  });
  const choose = (next: { of?: LabelSubject; place?: string }): void => {
    setLeft(new Set());
    void navigate({ search: next, replace: true });
  };

  return (
    <Page
      title="Labels"
      line="Codes with their check character, for beds, crosses, seed and cuttings."
      actions={
        <Button
          look="main"
          disabled={codes.length === 0 || print.isPending || drawn.error !== null}
          onClick={() => print.mutate()}
        >
          {print.isPending ? 'Making the PDF' : 'Make the PDF'}
        </Button>
      }
      controls={
        <>
          <InlineField label="For">
            {(id) => (
              <select
                id={id}
                value={of}
                onChange={({ target }) => choose({ of: target.value as LabelSubject })}
              >
                {subjects.map((subject) => (
                  <option key={subject.of} value={subject.of}>
                    {subject.name}
                  </option>
                ))}
              </select>
            )}
          </InlineField>
          {of === 'plants' && beds.data && (
            <InlineField label="Bed">
              {(id) => (
                <select
                  id={id}
                  value={place ?? ''}
                  onChange={({ target }) => choose({ of, place: target.value })}
                >
                  {beds.data.beds.map((bed) => (
                    <option key={bed.id} value={bed.code}>
                      {bed.code} ({counted(bed.plants, 'plant')})
                    </option>
                  ))}
                </select>
              )}
            </InlineField>
          )}
        </>
      }
    >
      {print.error && <Problem error={print.error} />}
      <div className="labels">
        <div className="labels-choices">
          <FormChooser
            chosen={chosen}
            onChoose={(next) => {
              setChosen(next);
              keepForm(next);
            }}
          />
          {rows.data && rows.data.length > 0 && <RowChooser rows={rows.data} left={left} onLeave={setLeft} />}
        </div>
        <section className="labels-preview" aria-labelledby="labels-preview">
          {rows.error ? (
            <Problem error={rows.error} again={() => void rows.refetch()} />
          ) : !rows.data ? (
            <Loading what="Fetching what labels are for" />
          ) : rows.data.length === 0 ? (
            <Nothing title="Nothing here needs a label yet" />
          ) : codes.length === 0 ? (
            <Nothing title="No label is ticked" />
          ) : drawn.error ? (
            <Problem error={drawn.error} />
          ) : !drawn.data ? (
            <Loading what="Drawing the labels" />
          ) : (
            <Preview drawn={drawn.data} single={form.kind === 'single'} />
          )}
        </section>
      </div>
    </Page>
  );
}

function Preview({ drawn, single }: { readonly drawn: LabelsDrawn; readonly single: boolean }): ReactNode {
  const [trueSize, setTrueSize] = useState(false);
  return (
    <>
      <h2 id="labels-preview">
        {counted(drawn.labels, 'label')} on {counted(drawn.pagesInAll, 'page')}
      </h2>
      <p className="small soft">
        {drawn.pages.length < drawn.pagesInAll && `The first ${drawn.pages.length} are shown. `}
        Print without fitting to the page: “actual size”, 100%.
      </p>
      <label className="ticked">
        <input type="checkbox" checked={trueSize} onChange={({ target }) => setTrueSize(target.checked)} />
        Show at true size
      </label>
      <section
        className={trueSize ? 'labels-pages labels-true' : 'labels-pages'}
        aria-label="Pages"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard
        tabIndex={0}
      >
        {drawn.pages.map((page, at) => (
          <PageDrawing
            // biome-ignore lint/suspicious/noArrayIndexKey: a page is known by its number
            key={at}
            page={page}
            name={single ? `label ${at + 1}` : `page ${at + 1}`}
          />
        ))}
      </section>
      <Lines title="What had to give way" lines={[...new Set(drawn.told)].slice(0, 12)} />
    </>
  );
}
