import type { TraitNote } from './trait-note.ts';

/** Terms chosen for a trait from what its notes hold, with the reasons in words. */
export interface ChosenModel {
  readonly fixed: readonly string[];
  readonly random: readonly string[];
  /** Class of each note for each column that a term names. */
  readonly columns: ReadonlyMap<string, readonly string[]>;
  readonly tookIntoAccount: readonly string[];
  readonly couldNotSeparate: readonly string[];
  /** Why nothing can be estimated at all; null where it can. */
  readonly impossible: string | null;
}

const fewestNotesOfAClass = 3;
const oldestAgeClass = 7;

const distinct = <T>(values: Iterable<T>): Set<T> => new Set(values);

function counted(values: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return counts;
}

const listed = (words: readonly string[]): string =>
  words.length > 1 ? `${words.slice(0, -1).join(', ')} and ${words.at(-1)}` : (words[0] ?? '');

/**
 * Chooses the terms of the mixed model for one trait. Seasons (each site in each year) are fixed classes, so that a
 * genet seen in good years alone is not favoured; genets are random, so that few notes pull an estimate towards the
 * average (Henderson 1975). A term enters only where the notes can tell it from the others.
 * The additive effect by pedigree is to join genet here (see docs/methods/mixed-model.md).
 */
export function chooseModel(notes: readonly TraitNote[]): ChosenModel {
  const columns = new Map<string, string[]>();
  const fixed: string[] = [];
  const random: string[] = ['genet'];
  const took: string[] = [];
  const could: string[] = [];
  columns.set(
    'genet',
    notes.map(({ genet }) => genet),
  );
  const perGenet = counted(columns.get('genet')!);
  const impossible = whyImpossible(notes, perGenet);
  if (impossible)
    return { fixed, random, columns, tookIntoAccount: [], couldNotSeparate: [impossible], impossible };

  const years = distinct(notes.map(({ year }) => year));
  const sites = distinct(notes.map(({ site }) => site));
  chooseSeason(notes, years, sites, columns, fixed, took, could);
  chooseBed(notes, columns, random, took, could);
  chooseAge(notes, years, columns, fixed, took, could);
  chooseObserver(notes, columns, fixed, random, took, could);
  choosePlant(notes, columns, random, took, could);
  return { fixed, random, columns, tookIntoAccount: took, couldNotSeparate: could, impossible: null };
}

function whyImpossible(notes: readonly TraitNote[], perGenet: ReadonlyMap<string, number>): string | null {
  if (notes.length === 0) return 'There are no notes of this trait yet.';
  if (perGenet.size < 2) return 'All notes are on one genet; to compare, note at least one more.';
  if (distinct(notes.map(({ value }) => value)).size === 1)
    return `All ${notes.length} notes say the same (${notes[0]!.value}); there is nothing to tell the genets apart by.`;
  if ([...perGenet.values()].every((count) => count === 1)) {
    return 'Every genet has a single note, so a true difference cannot be told from chance. Note at least some of them a second time: another plant, or another year.';
  }
  return null;
}

function chooseSeason(
  notes: readonly TraitNote[],
  years: ReadonlySet<number>,
  sites: ReadonlySet<string | null>,
  columns: Map<string, string[]>,
  fixed: string[],
  took: string[],
  could: string[],
): void {
  const seasons = notes.map(({ year, site }) =>
    sites.size > 1 ? `${site ?? 'no site'} ${year}` : String(year),
  );
  if (distinct(seasons).size < 2) {
    if (years.size === 1)
      could.push(
        `All notes are of one year (${[...years][0]}): how a genet does in other years is not known. One more year would tell.`,
      );
    return;
  }
  columns.set('season', seasons);
  fixed.push('season');
  took.push(
    sites.size > 1
      ? `the site and the year of each note (${distinct(seasons).size} seasons)`
      : `the year of each note (${years.size} years)`,
  );
  const loose = seasonsWithoutTie(notes, seasons);
  if (loose.length > 0) {
    could.push(
      `No genet seen in ${listed(loose.slice(0, 4))}${loose.length > 4 ? ' and others' : ''} was seen in any other season, so its genets are compared with the rest only by being average. Standards noted in every season would tie them together.`,
    );
  }
}

/** Seasons that share no genet with any other. */
function seasonsWithoutTie(notes: readonly TraitNote[], seasons: readonly string[]): string[] {
  const seasonsOf = new Map<string, Set<string>>();
  for (const [index, { genet }] of notes.entries()) {
    const set = seasonsOf.get(genet) ?? new Set();
    set.add(seasons[index]!);
    seasonsOf.set(genet, set);
  }
  const tied = new Set([...seasonsOf.values()].filter((set) => set.size > 1).flatMap((set) => [...set]));
  return [...distinct(seasons)].filter((season) => !tied.has(season)).sort();
}

function chooseBed(
  notes: readonly TraitNote[],
  columns: Map<string, string[]>,
  random: string[],
  took: string[],
  could: string[],
): void {
  const beds = notes.map(({ bed }) => bed ?? 'no bed');
  const count = distinct(beds).size;
  if (count < 2) return;
  if (count < 4) {
    could.push(
      `There are notes from ${count} beds only, too few to say how much beds differ; differences between beds count as chance.`,
    );
    return;
  }
  const moved = genetsInSeveral(notes, beds);
  if (moved < 2) {
    could.push(
      'No genets stand in more than one bed, so a good bed cannot be told from good genets. Plant a standard in each bed.',
    );
    return;
  }
  columns.set('bed', beds);
  random.push('bed');
  took.push(`the bed (${count} beds; ${moved} genets stand in more than one)`);
}

function genetsInSeveral(notes: readonly TraitNote[], classes: readonly string[]): number {
  const classesOf = new Map<string, Set<string>>();
  for (const [index, { genet }] of notes.entries()) {
    const set = classesOf.get(genet) ?? new Set();
    set.add(classes[index]!);
    classesOf.set(genet, set);
  }
  return [...classesOf.values()].filter((set) => set.size > 1).length;
}

function chooseAge(
  notes: readonly TraitNote[],
  years: ReadonlySet<number>,
  columns: Map<string, string[]>,
  fixed: string[],
  took: string[],
  could: string[],
): void {
  const known = notes.filter(({ age }) => age !== null).length;
  if (known === 0) {
    could.push(
      'The age of the plants is not known (no planting dates), so young plants are compared with old ones as if alike.',
    );
    return;
  }
  const ages = notes.map(({ age }) =>
    age === null
      ? 'unknown'
      : age >= oldestAgeClass
        ? `${oldestAgeClass} or more`
        : String(Math.max(0, Math.round(age))),
  );
  const counts = [...counted(ages).values()];
  if (counts.length < 2) return;
  const ageOfYear = new Map<number, Set<string>>();
  for (const [index, { year }] of notes.entries()) {
    const set = ageOfYear.get(year) ?? new Set();
    set.add(ages[index]!);
    ageOfYear.set(year, set);
  }
  if (years.size > 1 && [...ageOfYear.values()].every((set) => set.size === 1)) {
    could.push(
      'All plants are of one age, so what age does cannot be told from what the years did; both go into the year.',
    );
    return;
  }
  if (counts.filter((count) => count >= fewestNotesOfAClass).length < 2) {
    could.push('Too few notes of different ages to tell what age does.');
    return;
  }
  columns.set('age', ages);
  fixed.push('age');
  took.push('the age of the plant, in years');
}

function chooseObserver(
  notes: readonly TraitNote[],
  columns: Map<string, string[]>,
  fixed: string[],
  random: string[],
  took: string[],
  could: string[],
): void {
  const observers = notes.map(({ observer }) => observer ?? 'nobody named');
  const counts = counted(observers);
  if (counts.size < 2) return;
  if ([...counts.values()].filter((count) => count >= fewestNotesOfAClass).length < 2) {
    could.push('Only one person took more than a couple of notes, so habits of noting cannot be told.');
    return;
  }
  columns.set('observer', observers);
  (counts.size >= 5 ? random : fixed).push('observer');
  took.push(`who took the note (${counts.size} people)`);
}

function choosePlant(
  notes: readonly TraitNote[],
  columns: Map<string, string[]>,
  random: string[],
  took: string[],
  could: string[],
): void {
  const plants = notes.map(({ plant, genet }) => plant ?? `genet ${genet}`);
  const perPlant = counted(plants);
  if (perPlant.size === notes.length) return;
  const plantsOf = new Map<string, Set<string>>();
  for (const [index, { genet }] of notes.entries()) {
    const set = plantsOf.get(genet) ?? new Set();
    set.add(plants[index]!);
    plantsOf.set(genet, set);
  }
  const several = [...plantsOf.values()].filter((set) => set.size > 1).length;
  if (several < 2) {
    could.push(
      'Each genet is a single plant, so what the genet is cannot be told from the luck of its place. A second plant elsewhere would tell.',
    );
    return;
  }
  columns.set('plant', plants);
  random.push('plant');
  took.push(`the single plant, where a genet has several (${several} genets)`);
}
