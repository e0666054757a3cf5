import { fieldsOf } from '@keelrow/breeding/facts';
import type { ImportPlan, TraitShown, Upload } from '@keelrow/server/contract';
import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { traitsQuery } from '../api/queries.ts';
import { fieldName, meaningShown } from '../records/record-values.ts';
import { ColumnDetails } from './column-details.tsx';
import { choiceAsUse, choiceOf, examplesOf, withColumn } from './column-use.ts';

interface TableProps {
  readonly upload: Upload;
  readonly plan: ImportPlan;
  readonly onChange: (plan: ImportPlan) => void;
}

/** His header, some of its values, and what it means here. */
export function ColumnTable({ upload, plan, onChange }: TableProps): ReactNode {
  const traits = useQuery(traitsQuery);
  // Headers may stand twice in a file; their place tells them apart and does not change.
  const columns = upload.headers.map((header, index) => ({ key: `${index + 1} ${header}`, header, index }));
  return (
    <table className="columns">
      <thead>
        <tr>
          <th scope="col">Your column</th>
          <th scope="col">Some of its values</th>
          <th scope="col">What it holds</th>
        </tr>
      </thead>
      <tbody>
        {columns.map(({ key, header, index }) => {
          const use = plan.columns[index] ?? null;
          const name = header || `Column ${index + 1}`;
          return (
            <tr key={key} className={use === null ? 'column-left' : ''}>
              <th scope="row">{name}</th>
              <td className="column-examples">{examplesOf(upload, index).join(' · ') || 'empty'}</td>
              <td className="column-use">
                <select
                  aria-label={`What ${name} holds`}
                  value={choiceOf(use)}
                  onChange={(event) =>
                    onChange(withColumn(plan, index, choiceAsUse(event.target.value, header)))
                  }
                >
                  <Choices plan={plan} traits={traits.data ?? []} />
                </select>
                <ColumnDetails
                  header={name}
                  plan={plan}
                  use={use}
                  onUse={(next) => onChange(withColumn(plan, index, next))}
                />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Choices({
  plan,
  traits,
}: {
  readonly plan: ImportPlan;
  readonly traits: readonly TraitShown[];
}): ReactNode {
  const ofTraits = plan.kind === 'notes';
  const proposed = plan.columns.flatMap((use) =>
    use && 'trait' in use && !use.newTrait && !traits.some(({ code }) => code === use.trait)
      ? [use.trait]
      : [],
  );
  return (
    <>
      <option value="leave">Leave it out</option>
      {ofTraits && (
        <optgroup label="Values of a trait">
          <option value="new">A new trait…</option>
          {traits.map(({ code, name, unit }) => (
            <option key={code} value={`trait ${code}`}>
              {name}
              {unit ? `, ${unit}` : ''}
            </option>
          ))}
          {[...new Set(proposed)].map((code) => (
            <option key={code} value={`trait ${code}`}>
              {code}
            </option>
          ))}
        </optgroup>
      )}
      <optgroup label={ofTraits ? 'About the notes' : 'Fields'}>
        {ofTraits && <option value="year">The year in which it was noted</option>}
        {ofTraits && <option value="field plant.genet">The plant’s genet (variety)</option>}
        {ofTraits && <option value="field plant.place">The plant’s bed or place</option>}
        {fieldsOf(plan.kind).map(([name, field]) => (
          <option key={name} value={`field ${name}`}>
            {fieldName(name)}: {meaningShown(field)}
          </option>
        ))}
      </optgroup>
    </>
  );
}
