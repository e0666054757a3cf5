import type { NoteResidual, TraitModel } from '@keelrow/server/contract';

/** How far a plant's notes of one year lie from what was expected: −3 far below … 0 as expected … 3 far above. */
export type Step = -3 | -2 | -1 | 0 | 1 | 2 | 3;

/** One plant in one bed and year. */
export interface Spot {
  readonly key: string;
  readonly notes: readonly NoteResidual[];
  readonly code: string;
  readonly east: number | null;
  readonly north: number | null;
  /** Mean of its standardised residuals. */
  readonly off: number;
  readonly step: Step;
}
export interface Panel {
  readonly bed: string | null;
  readonly year: number;
  readonly spots: readonly Spot[];
}
/** Panels of one bed with the rectangle, in metres, that holds all its plants; null where no place is known. */
export interface BedPanels {
  readonly bed: string | null;
  readonly frame: {
    readonly west: number;
    readonly south: number;
    readonly width: number;
    readonly height: number;
  } | null;
  readonly panels: readonly Panel[];
}

/** Limits of the steps, in spreads of a standard normal: half of all lie nearer than 0.67, a twentieth beyond 1.96. */
const limits = [0.67, 1.28, 1.96] as const;

export function stepOf(off: number): Step {
  const size = limits.filter((limit) => Math.abs(off) >= limit).length;
  return (off < 0 ? -size : size) as Step;
}

const placeKey = ({ plant, genet }: NoteResidual): string => plant ?? `genet ${genet}`;

/** All residuals by bed and year, beds in the order of their codes, those without a bed last; years ascending. */
export function panelsOf(residuals: TraitModel['residuals']): BedPanels[] {
  const beds = new Map<string, Map<number, Map<string, NoteResidual[]>>>();
  for (const note of residuals) {
    if (note.standardised === null) continue;
    const years = getOr(beds, note.bed ?? '', () => new Map<number, Map<string, NoteResidual[]>>());
    const plants = getOr(years, note.year, () => new Map<string, NoteResidual[]>());
    getOr(plants, placeKey(note), () => []).push(note);
  }
  return [...beds]
    .sort(([a], [b]) => Number(a === '') - Number(b === '') || byCode(a, b))
    .map(([bed, years]) => {
      const panels = [...years]
        .sort(([a], [b]) => a - b)
        .map(([year, plants]) => ({
          bed: bed || null,
          year,
          spots: [...plants].map(([key, notes]) => spotOf(key, notes)),
        }));
      return { bed: bed || null, frame: frameOf(panels.flatMap(({ spots }) => spots)), panels };
    });
}

/** `bed-2` before `bed-10`. */
const byCode = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true });

function getOr<Key, Value>(map: Map<Key, Value>, key: Key, make: () => Value): Value {
  const there = map.get(key);
  if (there !== undefined) return there;
  const made = make();
  map.set(key, made);
  return made;
}

function spotOf(key: string, notes: readonly NoteResidual[]): Spot {
  const off = notes.reduce((sum, { standardised }) => sum + (standardised ?? 0), 0) / notes.length;
  const { code, east, north } = notes[0]!;
  return { key, notes, code, east, north, off, step: stepOf(off) };
}

function frameOf(spots: readonly Spot[]): BedPanels['frame'] {
  const placed = spots.filter(isPlaced);
  if (placed.length === 0) return null;
  const easts = placed.map(({ east }) => east);
  const norths = placed.map(({ north }) => north);
  const [west, south] = [Math.min(...easts), Math.min(...norths)];
  return { west, south, width: Math.max(...easts) - west, height: Math.max(...norths) - south };
}

export const isPlaced = (spot: Spot): spot is Spot & { readonly east: number; readonly north: number } =>
  spot.east !== null && spot.north !== null;
