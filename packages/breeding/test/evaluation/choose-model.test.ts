import { chooseModel, type TraitNote } from '@keelrow/breeding/evaluation';
import { describe, expect, it } from 'vitest';
import { crossed, genets, notesOf } from './layouts.ts';

const years = [2030, 2031, 2032];
const ageUnknown =
  'The age of the plants is not known (no planting dates), so young plants are compared with old ones as if alike.';
const singlePlants =
  'Each genet is a single plant, so what the genet is cannot be told from the luck of its place. A second plant elsewhere would tell.';

/** Terms of the model by their effects, and its sentences. */
function chosen(notes: readonly TraitNote[]) {
  const { fixed, random, tookIntoAccount, couldNotSeparate } = chooseModel(notes);
  return { fixed, random, took: tookIntoAccount, could: couldNotSeparate };
}

describe('layouts from which nothing can be told', () => {
  const impossible = (notes: readonly TraitNote[]) => {
    const model = chooseModel(notes);
    expect(model.couldNotSeparate).toEqual([model.impossible]);
    expect(model.tookIntoAccount).toEqual([]);
    return model.impossible;
  };

  it('no notes', () => {
    expect(impossible([])).toBe('There are no notes of this trait on plants or genets yet.');
  });

  it('one genet', () => {
    expect(impossible(notesOf(years.map((year) => ({ genet: 'G1', year }))))).toBe(
      'All notes are on one genet; to compare, note at least one more.',
    );
  });

  it('one note on each genet', () => {
    expect(impossible(notesOf(genets(30).map((genet) => ({ genet }))))).toMatch(
      /^Every genet has a single note, .* another plant, or another year\.$/,
    );
  });

  it('no variation', () => {
    const notes = notesOf(crossed(genets(5), years).map(([genet, year]) => ({ genet, year, value: 3 })));
    expect(impossible(notes)).toBe(
      'All 15 notes say the same; there is nothing to tell the genets apart by.',
    );
  });
});

describe('seasons', () => {
  it('one year: says that other years are not known', () => {
    const notes = notesOf(
      crossed(genets(8), [1, 2]).map(([genet, k]) => ({ genet, plant: `${genet}/${k}` })),
    );
    expect(chosen(notes)).toEqual({
      fixed: [],
      random: ['genet'],
      took: [],
      could: [
        'All notes are of one year (2030): how a genet does in other years is not known. One more year would tell.',
        ageUnknown,
      ],
    });
  });

  it('one site, several years', () => {
    const notes = notesOf(crossed(genets(8), years).map(([genet, year]) => ({ genet, year })));
    expect(chosen(notes)).toEqual({
      fixed: ['season'],
      random: ['genet'],
      took: ['the year of each note (3 years)'],
      could: [ageUnknown, singlePlants],
    });
  });

  it('sites × years: each site in each year is a season', () => {
    const notes = notesOf(
      crossed(crossed(genets(8), years), ['home', 'hill']).map(([[genet, year], site]) => ({
        genet,
        year,
        site,
        plant: null,
      })),
    );
    expect(chosen(notes)).toEqual({
      fixed: ['season'],
      random: ['genet'],
      took: ['the site and the year of each note (6 seasons)'],
      could: [ageUnknown],
    });
    expect(new Set(chooseModel(notes).columns.get('season'))).toContain('hill 2031');
  });

  it('several sites in one year: the site counts, and other years are not known', () => {
    const notes = notesOf(
      crossed(genets(8), ['home', 'hill', 'moor']).map(([genet, site]) => ({ genet, site, plant: null })),
    );
    const { took, could } = chosen(notes);
    expect(took).toEqual(['the site of each note (3 sites)']);
    expect(could[0]).toMatch(/^All notes are of one year \(2030\)/);
  });

  it('seasons without a genet in common are named', () => {
    const rows = [
      ...crossed(genets(6), [2030, 2031]).map(([genet, year]) => ({ genet, year })),
      // Two further seasons tied to each other, but not to the first two.
      ...crossed(['H1', 'H2'], [2032, 2033]).map(([genet, year]) => ({ genet, year })),
    ];
    const { fixed, could } = chosen(notesOf(rows));
    expect(fixed).toEqual(['season']);
    expect(could[0]).toMatch(/^No genet ties 2032 and 2033 to the other seasons: .*Standards noted in every/);
  });

  it('a standard noted in every season ties them', () => {
    const rows = years.flatMap((year) => [
      ...[1, 2, 3].map((k) => ({ genet: `${year}-${k}`, year })),
      { genet: 'standard', year },
    ]);
    const { fixed, could } = chosen(notesOf(rows));
    expect(fixed).toEqual(['season']);
    expect(could.filter((words) => words.startsWith('No genet ties'))).toEqual([]);
  });
});

describe('beds', () => {
  const inBeds = (beds: readonly string[], bedOf: (genet: number, year: number) => number) =>
    notesOf(
      crossed(genets(12), years).map(([genet, year], index) => ({
        genet,
        year,
        bed: beds[bedOf(Math.floor(index / years.length), year - 2030) % beds.length]!,
        plant: null,
      })),
    );

  it('two beds of one site are fixed classes where genets stand in both', () => {
    const { fixed, random, took } = chosen(inBeds(['a', 'b'], (genet, year) => genet + year));
    expect({ fixed, random }).toEqual({ fixed: ['season', 'bed'], random: ['genet'] });
    expect(took).toContain('the bed (2 beds; 12 genets stand in more than one)');
  });

  it('many beds are drawn towards their average', () => {
    const { fixed, random, took } = chosen(inBeds([...'abcde'], (genet, year) => genet + year));
    expect({ fixed, random }).toEqual({ fixed: ['season'], random: ['genet', 'bed'] });
    expect(took).toContain('the bed (5 beds; 12 genets stand in more than one)');
  });

  it('beds that each hold genets of their own can hardly be told from them, and enter for that', () => {
    const { fixed, random, could } = chosen(inBeds([...'abcd'], (genet) => genet));
    expect({ fixed, random }).toEqual({ fixed: ['season'], random: ['genet', 'bed', 'season*bed'] });
    expect(could).toContain(
      'No genet stands in more than one bed, so a good bed can hardly be told from good genets: genets of one bed are well compared, those of different beds are not, and their ranges are wide for it. Plant a standard in each bed.',
    );
  });

  it('a bed for each genet cannot be told from it', () => {
    const { random, could } = chosen(inBeds([...'abcdefghijkl'], (genet) => genet));
    expect(random).toEqual(['genet']);
    expect(could).toContain(
      'Each genet stands in a bed of its own, so a good bed cannot be told from a good genet. Plant a standard in each bed.',
    );
  });

  it('a bed for each season cannot be told from the season', () => {
    const { random, could } = chosen(inBeds([...'abc'], (_, year) => year));
    expect(random).toEqual(['genet']);
    expect(could).toContain(
      'In each season all notes come from one bed, so what the bed did cannot be told from what the season did; both go into the season.',
    );
  });
});

describe('age', () => {
  it('different ages in one year are fixed classes, the oldest together', () => {
    const notes = notesOf(
      crossed(genets(12), years).map(([genet, year], index) => ({
        genet,
        year,
        age: 1 + (Math.floor(index / 3) % 8) + year - 2030,
      })),
    );
    const { fixed, took } = chosen(notes);
    expect(fixed).toEqual(['season', 'age']);
    expect(took).toContain('the age of the plant, in years');
    expect(new Set(chooseModel(notes).columns.get('age'))).toEqual(
      new Set(['1', '2', '3', '4', '5', '6', '7 or more']),
    );
  });

  it('one age a year cannot be told from the year', () => {
    const notes = notesOf(
      crossed(genets(8), years).map(([genet, year]) => ({ genet, year, age: year - 2028 })),
    );
    const { fixed, could } = chosen(notes);
    expect(fixed).toEqual(['season']);
    expect(could).toContain(
      'In each season all plants were of one age, so what age did cannot be told from what the season did; both go into the season.',
    );
  });

  it('plants of unknown age are counted and kept apart', () => {
    const notes = notesOf(
      crossed(genets(9), years).map(([genet, year], index) => ({
        genet,
        year,
        age: index % 9 === 0 ? null : 1 + (index % 2),
      })),
    );
    const { fixed, took } = chosen(notes);
    expect(fixed).toEqual(['season', 'age']);
    expect(took).toContain('the age of the plant, in years (3 notes are on plants of unknown age)');
  });

  it('two notes on young plants are too few', () => {
    const notes = notesOf(
      crossed(genets(8), years).map(([genet, year], index) => ({ genet, year, age: index < 2 ? 1 : 4 })),
    );
    const { fixed, could } = chosen(notes);
    expect(fixed).toEqual(['season']);
    expect(could).toContain('There are too few notes on plants of different ages to tell what age does.');
  });
});

describe('people', () => {
  const takenBy = (who: readonly (string | null)[]) =>
    notesOf(
      crossed(genets(10), years).map(([genet, year], index) => ({
        genet,
        year,
        observer: who[index % who.length]!,
      })),
    );

  it('a few people are fixed classes', () => {
    const { fixed, random, took } = chosen(takenBy(['MK', 'JO']));
    expect({ fixed, random }).toEqual({ fixed: ['season', 'observer'], random: ['genet'] });
    expect(took).toContain('who took the note (2 people)');
  });

  it('many people are drawn towards their average', () => {
    const { fixed, random, took } = chosen(takenBy(['A', 'B', 'C', 'D', 'E']));
    expect({ fixed, random }).toEqual({ fixed: ['season'], random: ['genet', 'observer'] });
    expect(took).toContain('who took the note (5 people)');
  });

  it('nobody is no person: his notes are told apart, and not counted as a person’s', () => {
    const { fixed, took } = chosen(takenBy(['MK', 'JO', null, 'MK']));
    expect(fixed).toEqual(['season', 'observer']);
    expect(took).toContain('who took the note (2 people; 7 notes name nobody)');
    expect(chosen(takenBy(['MK', null])).fixed).toEqual(['season']);
  });

  it('one person a year cannot be told from the year', () => {
    const { fixed, could } = chosen(takenBy(['MK', 'JO', 'MK']));
    expect(fixed).toEqual(['season']);
    expect(could).toContain(
      'In each season one person took all notes, so habits of noting cannot be told from what the season did; both go into the season.',
    );
  });

  it('initials that spell a missing value are initials', () => {
    const notes = takenBy(['NA', 'JO']);
    expect(chooseModel(notes).columns.get('observer')).not.toContain('NA');
  });
});

describe('plants', () => {
  it('several plants of several genets, each noted in several years, are told apart', () => {
    const notes = notesOf(
      crossed(crossed(genets(6), [1, 2]), years).map(([[genet, k], year]) => ({
        genet,
        year,
        plant: `${genet}/${k}`,
      })),
    );
    expect(chosen(notes)).toMatchObject({
      random: ['genet', 'plant'],
      took: ['the year of each note (3 years)', 'the single plant (6 genets have several)'],
    });
  });

  it('notes on genets as a whole, all in one place, leave the plant’s luck in', () => {
    const notes = notesOf(crossed(genets(6), years).map(([genet, year]) => ({ genet, year, plant: null })));
    const { random, could } = chosen(notes);
    expect(random).toEqual(['genet']);
    expect(could.at(-1)).toMatch(/^The notes name genets and no single plants/);
  });
});

it('ten notes in all give a small model', () => {
  const notes = notesOf(
    crossed(genets(5), [2030, 2031]).map(([genet, year], index) => ({
      genet,
      year,
      observer: index === 3 ? 'JO' : 'MK',
      age: 3,
    })),
  );
  expect(chosen(notes)).toEqual({
    fixed: ['season'],
    random: ['genet'],
    took: ['the year of each note (2 years)'],
    could: [
      'Only one person took more than a couple of notes, so habits of noting cannot be told.',
      singlePlants,
    ],
  });
});
