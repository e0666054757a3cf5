/** Kinds of cross that the breeders make, as a season's plan lists them. */
export type CrossKind =
  | 'between species'
  | 'reciprocal'
  | 'cultivar by species'
  | 'between cultivars'
  | 'self'
  | 'sibs'
  | 'backcross'
  | 'hybrids'
  | 'best by best'
  | 'open'
  | 'seen';

interface SeasonPlan {
  readonly crosses: Partial<Record<CrossKind, number>>;
  /** Share of all seedlings that is raised from this season's seed. */
  readonly share: number;
  /** Plants selected at the end of the season, to be kept as several plants. */
  readonly selected: number;
}

/** 60 crosses over eight seasons; a longer programme goes on with the seventh. */
const seasons: readonly SeasonPlan[] = [
  {
    crosses: { 'between species': 5, reciprocal: 2, 'cultivar by species': 2, self: 1, open: 1 },
    share: 0.12,
    selected: 0,
  },
  { crosses: { 'between cultivars': 2, 'cultivar by species': 2, open: 2 }, share: 0.08, selected: 0 },
  { crosses: { sibs: 3, self: 2, backcross: 3, hybrids: 3, open: 1 }, share: 0.3, selected: 5 },
  { crosses: { hybrids: 3, backcross: 2, sibs: 1, open: 2 }, share: 0.16, selected: 8 },
  { crosses: { 'best by best': 5, self: 2, reciprocal: 1, open: 1 }, share: 0.18, selected: 14 },
  { crosses: { 'best by best': 4, reciprocal: 1, open: 1, seen: 1 }, share: 0.1, selected: 18 },
  { crosses: { 'best by best': 4, open: 1 }, share: 0.06, selected: 10 },
  { crosses: { 'best by best': 2 }, share: 0, selected: 0 },
];

/** The plan of a season, counted from 0; `last` is the programme's last, whose seed is not sown any more. */
export function seasonPlan(season: number, last: number): SeasonPlan {
  if (season === last) return seasons.at(-1)!;
  return seasons[Math.min(season, seasons.length - 2)]!;
}

/** Remarks that say what is hoped of a cross. */
export const hopes: Record<CrossKind, string> = {
  'between species': 'first meeting of the two kinds',
  reciprocal: 'the other way round, for the seed',
  'cultivar by species': 'spikes of the old garden with a wild constitution',
  'between cultivars': 'what the old garden still holds',
  self: 'what hides in it',
  sibs: 'second generation, for new colours',
  backcross: 'back to the better parent',
  hybrids: 'two kinds of hybrid together',
  'best by best': 'the two that we liked best',
  open: 'left to the bees',
  seen: 'a bumblebee went from the one to the other',
};
