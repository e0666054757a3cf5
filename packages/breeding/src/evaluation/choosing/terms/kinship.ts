import type { PedigreeEntry } from '../../../pedigree/index.ts';
import { sourcesOf } from '../../kin/kin-entries.ts';
import type { TraitNote } from '../../trait-note.ts';
import { count, counted } from './classes.ts';
import { nothing, onlySaying, type TermChoice } from './term-choice.ts';

/** So many noted genets must have a noted parent, seedling, sib or clone before kin can tell anything. */
const fewestWithKin = 10;
/** Sibs of one or two families differ in nothing that kinship explains. */
const fewestFamilies = 3;
/** With one note on each genet what is handed on is told by families alone, which takes more of them. */
const fewestGenetsOfOneNote = 20;

/**
 * What a genet hands on, by its kinship with all others: it enters where enough noted genets are kin of one another in
 * enough different ways.
 */
export function chooseKinship(
  notes: readonly TraitNote[],
  entries: readonly PedigreeEntry[] | null,
): TermChoice {
  if (entries === null) return nothing;
  const genets = notes.map(({ genet }) => genet);
  const noted = new Set(genets);
  const own = entries.filter(({ genet }) => noted.has(genet));
  if (own.every((entry) => sourcesOf(entry).length === 0 && entry.sharedUnknownPollen == null))
    return onlySaying('No parents of the noted genets are known, so each is judged by its own notes alone.');
  const { withKin, families } = kinAmong(own, noted);
  const perGenet = counted(genets);
  const singles = [...perGenet.values()].every((each) => each === 1);
  const needed = singles ? fewestGenetsOfOneNote : fewestWithKin;
  if (withKin < needed || families < fewestFamilies) {
    return onlySaying(
      `${withKin === noted.size ? `All ${noted.size}` : `${withKin === 0 ? 'None' : `Only ${withKin}`} of the ${noted.size}`} noted genets ${withKin === 1 ? 'has' : 'have'} a parent, sib, seedling or clone among the others${withKin >= needed ? `, and they are of ${count(families, 'family', 'families')} only` : ''}: too few to tell what kin share, so each genet is judged by its own notes alone.`,
    );
  }
  return {
    term: { name: 'additive', effects: 'random', classes: genets },
    took: `parents, sibs, seedlings and clones (${withKin} noted genets of ${count(families, 'family', 'families')} have such kin among the noted)`,
    couldNot: singles
      ? [
          'Each genet has a single note, so what a genet is beyond what its kin share cannot be told from chance: its estimate is what it hands on. A second note on some of them, on another plant or in another year, would tell.',
        ]
      : [],
  };
}

/** Noted genets that have noted kin next to them, and how many families (lists of parents) these are of. */
function kinAmong(
  own: readonly PedigreeEntry[],
  noted: ReadonlySet<string>,
): { withKin: number; families: number } {
  const childrenOf = new Map<string, string[]>();
  const withKin = new Set<string>();
  for (const entry of own) {
    const sources = new Set(sourcesOf(entry));
    if (entry.sharedUnknownPollen != null) sources.add(`unknown ${entry.sharedUnknownPollen}`);
    for (const source of sources) {
      if (noted.has(source)) withKin.add(source).add(entry.genet);
      const children = childrenOf.get(source);
      if (children) children.push(entry.genet);
      else childrenOf.set(source, [entry.genet]);
    }
  }
  for (const children of childrenOf.values())
    if (children.length > 1) for (const child of children) withKin.add(child);
  const families = new Set(
    own
      .filter(({ genet }) => withKin.has(genet))
      .map((entry) => [...sourcesOf(entry)].sort().join(' × ') || entry.genet),
  );
  return { withKin: withKin.size, families: families.size };
}
