import { fieldAsText, fieldsOf, isKindName, type KindName, kindOf } from '@keelrow/breeding/facts';
import type { ImportPlan, ImportPreview } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { counted } from '../parts/words.ts';
import { fieldName } from '../records/record-values.ts';

interface StoredProps {
  readonly preview: ImportPreview;
  readonly plan: ImportPlan;
  readonly onChange: (plan: ImportPlan) => void;
}

/** How much would be stored, the first rows of it, and what the programme lacks that the file names. */
export function WhatIsStored({ preview, plan, onChange }: StoredProps): ReactNode {
  return (
    <>
      <p>
        {counted(preview.rows, 'row')} read
        {storedWords(preview.wouldStore) && (
          <>
            ; would be stored: <strong>{storedWords(preview.wouldStore)}</strong>
          </>
        )}
        {preview.changed > 0 && `; ${counted(preview.changed, 'record')} would be changed`}
        {preview.alreadyThere > 0 &&
          `; ${preview.alreadyThere.toLocaleString('en-US')} are there already, word for word`}
        .
      </p>
      <Missing preview={preview} plan={plan} onChange={onChange} />
      <label className="ticked">
        <input
          type="checkbox"
          checked={plan.ifThere === 'change'}
          onChange={(event) => onChange({ ...plan, ifThere: event.target.checked ? 'change' : 'refuse' })}
        />
        <span>Records that are there already with other values: take the file’s values</span>
      </label>
      {(plan.again !== undefined || preview.problems.some(({ problem }) => /taken in/.test(problem))) && (
        <label className="ticked">
          <input
            type="checkbox"
            checked={plan.again ?? false}
            onChange={(event) => onChange({ ...plan, again: event.target.checked })}
          />
          <span>Take the file in although it was taken in before</span>
        </label>
      )}
      <FirstRows preview={preview} kind={plan.kind} />
    </>
  );
}

/** Records that the file names and the programme lacks: made along with the rest where that is wanted and possible. */
function Missing({ preview, plan, onChange }: StoredProps): ReactNode {
  const made = plan.make ?? [];
  const kinds = [...new Set([...preview.missing.map(({ kind }) => kind), ...made])];
  return kinds.map((kind) => {
    const lacking = preview.missing.find((one) => one.kind === kind);
    const words = lacking ? counted(lacking.count, kindOf(kind).one, kindOf(kind).many) : kindOf(kind).many;
    return (
      <div key={kind} className="missing">
        {(lacking?.canMake ?? true) ? (
          <label className="ticked">
            <input
              type="checkbox"
              checked={made.includes(kind)}
              onChange={(event) =>
                onChange({
                  ...plan,
                  make: event.target.checked ? [...made, kind] : made.filter((one) => one !== kind),
                })
              }
            />
            <span>Make the {words} that the file names and the programme lacks</span>
          </label>
        ) : (
          <p>The file names {words} that the programme lacks; bring them in first.</p>
        )}
        {lacking && (
          <p className="small soft">
            {lacking.codes.slice(0, 12).join(', ')}
            {lacking.count > 12 && ` and ${(lacking.count - 12).toLocaleString('en-US')} more`}
          </p>
        )}
      </div>
    );
  });
}

/** `1,200 notes, 60 genets`. */
export const storedWords = (stored: Readonly<Record<string, number>>): string =>
  Object.entries(stored)
    .filter(([, count]) => count > 0)
    .map(([kind, count]) =>
      isKindName(kind) ? counted(count, kindOf(kind).one, kindOf(kind).many) : `${count} ${kind}`,
    )
    .join(', ');

function FirstRows({
  preview,
  kind,
}: {
  readonly preview: ImportPreview;
  readonly kind: KindName;
}): ReactNode {
  const fields = fieldsOf(kind).filter(([name]) =>
    preview.first.some((row) => row[name] !== null && row[name] !== undefined),
  );
  const rows = preview.first.map((row, index) => ({ key: `row ${index + 1}`, row }));
  if (rows.length === 0) return null;
  return (
    <section className="first-rows" aria-label="First rows as they would be stored">
      <table>
        <thead>
          <tr>
            {fields.map(([name]) => (
              <th key={name} scope="col">
                {fieldName(name)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, row }) => (
            <tr key={key}>
              {fields.map(([name, field]) => (
                <td key={name}>{fieldAsText(field, row[name])}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
