import type { KindName, Row } from '@keelrow/breeding/facts';
import type { SimulatedRecord } from '../garden.ts';

/** Records of one kind, with fields that hold nothing left out. */
export function* ofKind<K extends KindName>(kind: K, rows: Iterable<Row<K>>): Generator<SimulatedRecord> {
  for (const row of rows) yield { kind, row: tidy(row) } as SimulatedRecord;
}

function tidy<R extends object>(row: R): R {
  return Object.fromEntries(
    Object.entries(row).filter(([, value]) => value !== null && value !== undefined && value !== ''),
  ) as R;
}
