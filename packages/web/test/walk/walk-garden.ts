import type { HeldPlant, TraitShown } from '@keelrow/server/contract';

export const heldPlant = (code: string, more: Partial<HeldPlant> = {}): HeldPlant => ({
  id: `id of ${code}`,
  code,
  genet: `genet of ${code}`,
  genetCode: code.replace(/\/\d+$/, ''),
  genetName: null,
  parents: '',
  bed: null,
  walk: null,
  eastM: null,
  northM: null,
  plantedOn: null,
  goneOn: null,
  ...more,
});

export const heldTrait = (
  code: string,
  sort: TraitShown['sort'],
  more: Partial<TraitShown> = {},
): TraitShown => ({
  id: `id of ${code}`,
  code,
  name: code,
  sort,
  unit: null,
  least: null,
  most: null,
  classes: [],
  wanted: null,
  how: null,
  notes: 0,
  notesElsewhere: [],
  estimable: true,
  ...more,
});
