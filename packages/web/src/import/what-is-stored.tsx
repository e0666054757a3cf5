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
      {preview.missing.map(({ kind, count, codes, canMake }) => (
        <div key={kind} className="missing">
          {canMake ? (
            <label className="ticked">
              <input
                type="checkbox"
                checked={(plan.make ?? []).includes(kind)}
                onChange={(event) =>
                  onChange({
                    ...plan,
                    make: event.target.checked
                      ? [...(plan.make ?? []), kind]
                      : (plan.make ?? []).filter((made) => made !== kind),
                  })
                }
              />
              <span>
                Make the {counted(count, kindOf(kind).one, kindOf(kind).many)} that the file names and the
                programme lacks
              </span>
            </label>
          ) : (
            <p>
              The file names {counted(count, kindOf(kind).one, kindOf(kind).many)} that the programme lacks;
              bring them in first.
            </p>
          )}
          <p className="small soft">
            {codes.slice(0, 12).join(', ')}
            {count > 12 && ` and ${(count - 12).toLocaleString('en-US')} more`}
          </p>
        </div>
      ))}
      <label className="ticked">
        <input
          type="checkbox"
          checked={plan.ifThere === 'change'}
          onChange={(event) => onChange({ ...plan, ifThere: event.target.checked ? 'change' : 'refuse' })}
        />
        <span>Records that are there already with other values: take the file’s values</span>
      </label>
      {preview.problems.some(({ problem }) => /before/.test(problem)) && (
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
