import { type AnyRow, keptAs, type Lab } from '@keelrow/breeding/facts';
import type { TraitShown } from '@keelrow/server/contract';

/** A limit of a brief as its record holds it. */
export interface Limit {
  readonly id: string;
  readonly brief: string;
  readonly trait: string;
  readonly must: boolean;
  readonly weight: number | null;
  readonly atLeast: number | null;
  readonly atMost: number | null;
  readonly classes: readonly string[];
  readonly colour: Lab | null;
  readonly colourWithin: number | null;
  readonly fromWeek: number | null;
  readonly toWeek: number | null;
}

const number = (value: unknown): number | null => (typeof value === 'number' ? value : null);
const isLab = (value: unknown): value is Lab => typeof value === 'object' && value !== null && 'l' in value;

export const limitOf = (row: AnyRow & { readonly id: string }): Limit => ({
  id: row.id,
  brief: String(row.brief ?? ''),
  trait: String(row.trait ?? ''),
  must: row.must === true,
  weight: number(row.weight),
  atLeast: number(row.at_least),
  atMost: number(row.at_most),
  classes: Array.isArray(row.classes) ? row.classes.map(String) : [],
  colour: isLab(row.colour) ? row.colour : null,
  colourWithin: number(row.colour_within),
  fromWeek: number(row.from_week),
  toWeek: number(row.to_week),
});

/** Musts first, then wishes by their weight. */
export const inOrder = (limits: readonly Limit[]): Limit[] =>
  [...limits].sort(
    (a, b) => Number(b.must) - Number(a.must) || (b.weight ?? 1) - (a.weight ?? 1) || (a.id < b.id ? -1 : 1),
  );

/** Whether a brief can ask anything of a trait: words, pictures and sounds cannot be held against a limit. */
export const canBeLimited = ({ sort }: TraitShown): boolean =>
  ['number', 'date', 'class', 'colour'].includes(keptAs[sort]);
