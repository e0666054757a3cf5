import type { PedigreeEntry } from '../../pedigree/index.ts';
import type { Kin } from '../kin/kin.ts';
import type { TraitNote } from '../trait-note.ts';
import { counted, genetsInSeveral } from './terms/classes.ts';
import type { Tried } from './tried-terms.ts';

/** Terms that are worth trying with these notes, and the columns that they need. */
export interface Candidates {
  readonly tried: readonly Tried[];
  readonly columns: ReadonlyMap<string, readonly string[]>;
}

const fewestGenets = 5;
const fewestFamilies = 5;
const fewestInbred = 10;
/** Inbreeding of a child of half sibs is 1/8. */
const muchInbreeding = 0.1;
const mostUnknown = 0.2;

/** What light, moisture or site does to some genets more than to others; needs genets that stand in several of them. */
export function conditionCandidates(notes: readonly TraitNote[]): Candidates {
  const tried: Tried[] = [];
  const columns = new Map<string, readonly string[]>();
  for (const condition of ['light', 'moisture', 'site'] as const) {
    const known = notes.map((note) => note[condition] ?? null);
    if (known.filter((each) => each === null).length > mostUnknown * notes.length) continue;
    const classes = known.map((each) => each ?? 'not known');
    const several = genetsInSeveral(notes, classes);
    if (new Set(classes).size < 2 || several < fewestGenets) continue;
    columns.set(condition, classes);
    tried.push({
      term: `genet*${condition}`,
      words: `What ${condition} does to one genet more than to another`,
      kind: 'random',
      took: `that genets take ${condition} differently (${several} genets stand in several kinds of it)`,
    });
  }
  return { tried, columns };
}

/** What kinship makes possible: inbreeding depression, and what full sibs share beyond their parents' additive values. */
export function kinCandidates(
  notes: readonly TraitNote[],
  kin: Kin,
  familyOf: (genet: string) => string,
): Candidates {
  const tried: Tried[] = [];
  const columns = new Map<string, readonly string[]>();
  const noted = [...new Set(notes.map(({ genet }) => genet))];
  const inbreeding = noted.map(kin.inbreeding);
  const least = inbreeding.reduce((low, each) => Math.min(low, each), Infinity);
  const inbred = inbreeding.filter((each) => each > least + muchInbreeding).length;
  if (inbred >= fewestInbred && noted.length - inbred >= fewestInbred) {
    columns.set(
      'inbreeding',
      notes.map(({ genet }) => String(kin.inbreeding(genet))),
    );
    tried.push({
      term: 'inbreeding',
      words: 'Inbreeding depression: a slope on inbreeding',
      kind: 'slope',
      took: `inbreeding (${inbred} noted genets are inbred by more than ${muchInbreeding} beyond the others)`,
    });
  }
  const sizes = counted(noted.map(familyOf));
  const families = [...sizes.values()].filter((size) => size > 1).length;
  if (families >= fewestFamilies) {
    columns.set(
      'family',
      notes.map(({ genet }) => familyOf(genet)),
    );
    tried.push({
      term: 'family',
      words: 'What full sibs share beyond what parents hand on',
      kind: 'random',
      took: `what full sibs share beyond what parents hand on (${families} families)`,
    });
  }
  return { tried, columns };
}

/** The family of full sibs that a genet is of: both parents known. Any other genet, and a clone's, is of its own. */
export function fullSibFamilies(entries: readonly PedigreeEntry[]): (genet: string) => string {
  const families = new Map<string, string>();
  for (const { genet, seedParents, pollenParents } of entries) {
    const [seed, pollen] = [seedParents[0], pollenParents[0]];
    if (seed?.chance !== 1 || pollen?.chance !== 1) continue;
    const mates = [seed.genet, pollen.genet === 'self' ? seed.genet : pollen.genet].sort();
    families.set(genet, JSON.stringify(mates));
  }
  return (genet) => families.get(genet) ?? genet;
}
