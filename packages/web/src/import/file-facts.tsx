import { isKindName, kindNames, kindOf } from '@keelrow/breeding/facts';
import type { ImportPlan, ProposalWanted, Upload } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Field } from '../parts/field.tsx';
import { capital } from '../parts/words.ts';
import { usualKinds } from './use-import.ts';

interface FactsProps {
  readonly upload: Upload;
  readonly plan: ImportPlan;
  readonly onReadAs: (wanted: ProposalWanted) => void;
}

const size = (bytes: number): string =>
  bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;

/** What the file is, which of its sheets is meant, and what each of its rows is. */
export function FileFacts({ upload, plan, onReadAs }: FactsProps): ReactNode {
  const others = kindNames.filter((kind) => !usualKinds.includes(kind));
  return (
    <>
      <p>
        <strong>{upload.name}</strong>{' '}
        <span className="soft">
          {upload.format}, {size(upload.bytes)}, {upload.headers.length} columns
        </span>
      </p>
      {upload.findings.length > 0 && (
        <ul className="findings">
          {upload.findings.map((finding) => (
            <li key={finding}>{finding}</li>
          ))}
        </ul>
      )}
      <div className="file-choices">
        {upload.sheets.length > 1 && (
          <Field label="Sheet">
            {(control) => (
              <select
                {...control}
                value={upload.sheet ?? ''}
                onChange={(event) => onReadAs({ sheet: event.target.value })}
              >
                {upload.sheets.map((sheet) => (
                  <option key={sheet}>{sheet}</option>
                ))}
              </select>
            )}
          </Field>
        )}
        <Field label="Each row holds" hint={kindOf(plan.kind).about}>
          {(control) => (
            <select
              {...control}
              value={plan.kind}
              onChange={(event) => {
                const kind = event.target.value;
                if (isKindName(kind)) onReadAs({ kind, sheet: upload.sheet ?? undefined });
              }}
            >
              <optgroup label="Most often">
                {usualKinds.map((kind) => (
                  <option key={kind} value={kind}>
                    {kind === 'notes'
                      ? 'Values that were noted, in one or more columns'
                      : `One ${kindOf(kind).one}`}
                  </option>
                ))}
              </optgroup>
              <optgroup label="Others">
                {others.map((kind) => (
                  <option key={kind} value={kind}>
                    {capital(kindOf(kind).one)}
                  </option>
                ))}
              </optgroup>
            </select>
          )}
        </Field>
      </div>
    </>
  );
}
