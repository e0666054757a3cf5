import type { TraitNote } from '../../trait-note.ts';
import { linkedGroups, listed } from './classes.ts';
import { nothing, onlySaying, type TermChoice } from './term-choice.ts';

/** The season of each note: its year, and its site where notes come from several. */
export function seasonsOf(notes: readonly TraitNote[]): string[] {
  const sites = new Set(notes.map(({ site }) => site));
  return notes.map(({ year, site }) => (sites.size > 1 ? `${site ?? 'no site'} ${year}` : String(year)));
}

/**
 * Seasons are fixed classes, so that a genet seen in good years or at a good site alone is not favoured. Seasons that no
 * genet ties to the others are compared by the average of their genets alone.
 */
export function chooseSeason(notes: readonly TraitNote[], seasons: readonly string[]): TermChoice {
  const years = new Set(notes.map(({ year }) => year));
  const sites = new Set(notes.map(({ site }) => site)).size;
  const all = new Set(seasons).size;
  const oneYear =
    years.size === 1
      ? [
          `All notes are of one year (${[...years][0]}): how a genet does in other years is not known. One more year would tell.`,
        ]
      : [];
  if (all < 2) return oneYear.length > 0 ? onlySaying(...oneYear) : nothing;
  const took =
    sites === 1
      ? `the year of each note (${years.size} years)`
      : years.size === 1
        ? `the site of each note (${sites} sites)`
        : `the site and the year of each note (${all} seasons)`;
  return {
    term: { name: 'season', effects: 'fixed', classes: seasons },
    took,
    couldNot: [...oneYear, ...untied(notes, seasons)],
  };
}

function untied(notes: readonly TraitNote[], seasons: readonly string[]): string[] {
  const [, ...apart] = linkedGroups(
    seasons,
    notes.map(({ genet }) => genet),
  );
  if (apart.length === 0) return [];
  return [
    `No genet ties ${listed(apart.flat().sort())} to the other seasons: genets seen there alone are compared with the rest as if the average genet had been the same everywhere. Standards noted in every season would tie them together.`,
  ];
}
