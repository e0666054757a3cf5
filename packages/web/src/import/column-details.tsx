import { fieldsOf } from '@keelrow/breeding/facts';
import type { ColumnUse, ImportPlan, NewTrait } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { InlineField } from '../parts/field.tsx';
import { codeFrom } from './column-use.ts';

interface DetailsProps {
  readonly header: string;
  readonly plan: ImportPlan;
  readonly use: ColumnUse | null;
  readonly onUse: (use: ColumnUse) => void;
}

const sorts: readonly { readonly sort: NewTrait['sort']; readonly words: string }[] = [
  { sort: 'measured', words: 'measured: a number with a unit' },
  { sort: 'counted', words: 'counted: whole numbers' },
  { sort: 'scored', words: 'scored: points on a scale' },
  { sort: 'dated', words: 'dated: the day of something' },
  { sort: 'classed', words: 'classed: one of a few words' },
  { sort: 'written', words: 'written: any text' },
];

/** What else has to be known of a column: its unit, or what the new trait is. */
export function ColumnDetails({ header, plan, use, onUse }: DetailsProps): ReactNode {
  if (use === null || 'year' in use) return null;
  if ('trait' in use) {
    return (
      <span className="column-details">
        {use.newTrait && (
          <NewTraitFields
            header={header}
            trait={use.newTrait}
            onTrait={(newTrait) => onUse({ ...use, trait: codeFrom(newTrait.name), newTrait })}
          />
        )}
        {!use.newTrait && (
          <UnitField header={header} unit={use.unit} onUnit={(unit) => onUse({ ...use, unit })} />
        )}
      </span>
    );
  }
  const field = fieldsOf(plan.kind).find(([name]) => name === use.field)?.[1];
  if (!field || !('unit' in field)) return null;
  return (
    <span className="column-details">
      <UnitField header={header} unit={use.unit ?? field.unit} onUnit={(unit) => onUse({ ...use, unit })} />
    </span>
  );
}

function UnitField({
  header,
  unit,
  onUnit,
}: {
  readonly header: string;
  readonly unit: string | undefined;
  readonly onUnit: (unit: string | undefined) => void;
}): ReactNode {
  return (
    <InlineField label="in">
      {(id) => (
        <input
          id={id}
          className="column-unit"
          aria-label={`Unit of ${header}`}
          placeholder="its unit"
          value={unit ?? ''}
          onChange={(event) => onUnit(event.target.value.trim() || undefined)}
        />
      )}
    </InlineField>
  );
}

function NewTraitFields({
  header,
  trait,
  onTrait,
}: {
  readonly header: string;
  readonly trait: NewTrait;
  readonly onTrait: (trait: NewTrait) => void;
}): ReactNode {
  return (
    <>
      <input
        aria-label={`Name of the new trait in ${header}`}
        value={trait.name}
        onChange={(event) => onTrait({ ...trait, name: event.target.value })}
      />
      <select
        aria-label={`Sort of the new trait in ${header}`}
        value={trait.sort}
        onChange={(event) => {
          const found = sorts.find(({ sort }) => sort === event.target.value);
          if (found) onTrait({ ...trait, sort: found.sort });
        }}
      >
        {sorts.map(({ sort, words }) => (
          <option key={sort} value={sort}>
            {words}
          </option>
        ))}
      </select>
      {trait.sort === 'measured' && (
        <UnitField header={header} unit={trait.unit} onUnit={(unit) => onTrait({ ...trait, unit })} />
      )}
    </>
  );
}
