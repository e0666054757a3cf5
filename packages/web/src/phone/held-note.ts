import type { AnyRow } from '@keelrow/breeding/facts';
import type { HeldNote } from '@keelrow/server/contract';

/** A held note as a row to enter it once more. */
export function rowOfHeldNote({ plant, trait, on, state, value, remark, photo }: HeldNote): AnyRow {
  return {
    plant,
    trait,
    on,
    state,
    ...(value === null ? {} : { value }),
    ...(remark === null ? {} : { remark }),
    ...(photo === null ? {} : { photo }),
  };
}
