import type { PlantList } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import type { PlantsWanted } from '../api/queries.ts';
import { InlineField } from '../parts/field.tsx';
import { SearchBox } from '../parts/search-box.tsx';
import './plant-filters.css';

const decisions = ['keep', 'look again', 'discard', 'rogue', 'increase', 'introduce'];

interface FiltersProps {
  readonly wanted: PlantsWanted;
  readonly list: PlantList | undefined;
  readonly onWant: (wanted: PlantsWanted) => void;
}

export function PlantFilters({ wanted, list, onWant }: FiltersProps): ReactNode {
  return (
    <search className="plant-filters">
      <SearchBox
        bySlash
        firstFound='.plant-table [data-row="0"] a'
        name="Search plants by code, name or parent"
        placeholder="Code, name or parent"
        value={wanted.search ?? ''}
        onSearch={(search) => onWant({ ...wanted, search: search || undefined })}
      />
      <Choose
        label="Origin"
        any="any"
        value={wanted.origin}
        options={(list?.origins ?? []).map((origin) => ({ value: origin, words: origin }))}
        onChoose={(origin) => onWant({ ...wanted, origin })}
      />
      <Choose
        label="Place"
        any="anywhere"
        value={wanted.place}
        options={(list?.places ?? []).map(({ code, name }) => ({
          value: code,
          words: name && name !== code ? `${code} ${name}` : code,
        }))}
        onChoose={(place) => onWant({ ...wanted, place })}
      />
      <Choose
        label="Decision"
        any="any or none"
        value={wanted.decision}
        options={decisions.map((decision) => ({ value: decision, words: decision }))}
        onChoose={(decision) => onWant({ ...wanted, decision })}
      />
      <Choose
        label="Alive"
        any="all"
        value={wanted.alive}
        options={[
          { value: 'yes', words: 'alive' },
          { value: 'no', words: 'all gone' },
        ]}
        onChoose={(alive) =>
          onWant({ ...wanted, alive: alive === 'yes' || alive === 'no' ? alive : undefined })
        }
      />
    </search>
  );
}

function Choose({
  label,
  any,
  value,
  options,
  onChoose,
}: {
  readonly label: string;
  readonly any: string;
  readonly value: string | undefined;
  readonly options: readonly { readonly value: string; readonly words: string }[];
  readonly onChoose: (value: string | undefined) => void;
}): ReactNode {
  return (
    <InlineField label={label}>
      {(id) => (
        <select id={id} value={value ?? ''} onChange={(event) => onChoose(event.target.value || undefined)}>
          <option value="">{any}</option>
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.words}
            </option>
          ))}
        </select>
      )}
    </InlineField>
  );
}
