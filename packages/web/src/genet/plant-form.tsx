import { useQuery } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Loading } from '../parts/states.tsx';
import { useToday } from '../parts/use-today.ts';
import { RecordForm } from '../records/record-form.tsx';
import { addRecord, nextCode } from '../records/store-record.ts';

const fields = ['code', 'place', 'walk', 'planted_on', 'raised_as', 'remark'];

/** One more plant of a genet, with the next free code by the programme's pattern. */
export function PlantForm({
  genet,
  onStored,
}: {
  readonly genet: string;
  readonly onStored: () => void;
}): ReactNode {
  const today = useToday();
  const code = useQuery({
    queryKey: ['next-code', 'plants', genet],
    queryFn: () => nextCode('plants', genet, Number(today.slice(0, 4))),
    gcTime: 0,
  });
  if (code.data === undefined) return <Loading what="Finding the next free code" />;
  return (
    <RecordForm
      kind="plants"
      row={{ code: code.data, genet, planted_on: today }}
      fields={fields}
      submit="Store the plant"
      onStore={async (plant) => {
        await addRecord('plants', plant);
        onStored();
      }}
    />
  );
}
