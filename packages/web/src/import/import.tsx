import type { ReactNode } from 'react';
import { Button } from '../parts/button.tsx';
import { Page } from '../parts/page.tsx';
import { Loading, Problem, Progress } from '../parts/states.tsx';
import { ColumnTable } from './column-table.tsx';
import { FileDrop } from './file-drop.tsx';
import { FileFacts } from './file-facts.tsx';
import './import.css';
import { Problems } from './problems.tsx';
import { Questions } from './questions.tsx';
import { SameForAll } from './same-for-all.tsx';
import { StoreImport } from './store-import.tsx';
import { Templates } from './templates.tsx';
import { useImport } from './use-import.ts';
import { WhatIsStored } from './what-is-stored.tsx';

/** Own spreadsheets in, step by step on one page; nothing is stored until the last button is pressed. */
export function Import(): ReactNode {
  const bringing = useImport();
  const { upload, plan, preview, busy, error } = bringing;
  return (
    <Page
      title="Import"
      line="Your own spreadsheets, as they are. Nothing is stored before you have seen it."
      actions={upload && <Button onClick={bringing.startOver}>Another file</Button>}
    >
      {!upload || !plan ? (
        <>
          <FileDrop onFile={bringing.take} busy={busy} />
          {busy && <Progress share={null} words={busy} />}
          {error !== null && <Problem error={error} />}
          <Templates />
        </>
      ) : (
        <ol className="import-steps">
          <Step title="The file">
            <FileFacts upload={upload} plan={plan} onReadAs={bringing.readAs} />
          </Step>
          <Step title="What its columns hold">
            <ColumnTable upload={upload} plan={plan} onChange={bringing.change} />
            <SameForAll plan={plan} onChange={bringing.change} />
          </Step>
          {preview && preview.questions.length > 0 && (
            <Step title="Questions that only you can answer">
              <Questions questions={preview.questions} plan={plan} onChange={bringing.change} />
            </Step>
          )}
          <Step title="What would be stored">
            {error !== null && <Problem error={error} />}
            {preview ? (
              <>
                <WhatIsStored preview={preview} plan={plan} onChange={bringing.change} />
                <Problems preview={preview} name={upload.name} />
              </>
            ) : (
              error === null && <Loading what={busy ?? 'Reading every row'} />
            )}
          </Step>
          {preview && (
            <Step title="Store it">
              <StoreImport
                key={plan.kind}
                upload={upload}
                plan={plan}
                preview={preview}
                reading={busy}
                onReadAs={bringing.readAs}
              />
            </Step>
          )}
        </ol>
      )}
    </Page>
  );
}

function Step({ title, children }: { readonly title: string; readonly children: ReactNode }): ReactNode {
  return (
    <li className="import-step">
      <h2>{title}</h2>
      {children}
    </li>
  );
}
