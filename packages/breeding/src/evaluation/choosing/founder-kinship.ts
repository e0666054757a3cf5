import type { PedigreeEntry } from '../../pedigree/index.ts';
import { sourcesOf } from '../kin/kin-entries.ts';
import { count } from './terms/classes.ts';

/** Values of γ = 2θ that are held against each other: founders of a group unrelated (0) to all but alike (near 2). */
const grid = [0, 0.5, 1, 1.5, 1.8, 1.95];
/** Taken where the notes do not tell: half way. Common practice, no source. */
const usual = 1;
const fewestCrosses = 5;
/** A value has to be likelier than the usual one by e to this power. */
const clearly = 0.5;

export interface FounderKinshipChoice {
  /** Null where founders are taken as unrelated, as they are of one group or of none. */
  readonly gamma: number | null;
  readonly words: readonly string[];
}

/**
 * How near of kin founders of one group (taxon or provenance) are, by the REML likelihood of a few values where crosses
 * between groups are noted: how much these scatter against the groups themselves tells it (metafounders: Legarra,
 * Christensen, Vitezica, Aguilar & Misztal 2015, Genetics 200:455-468).
 *
 * @param likelihood log-likelihood of the notes at a γ
 */
export function chooseFounderKinship(
  entries: readonly PedigreeEntry[],
  noted: ReadonlySet<string>,
  likelihood: (gamma: number) => number,
): FounderKinshipChoice {
  const { groups, crosses } = groupsOfNoted(entries, noted);
  if (groups < 2) return { gamma: null, words: [] };
  const several = `${groups} founder groups`;
  if (crosses < fewestCrosses) {
    return {
      gamma: usual,
      words: [
        `Founders of one taxon or provenance are taken as kin of one another (γ = ${usual}, where 0 is unrelated and 2 all alike): the usual value, as ${count(crosses, 'noted genet stems', 'noted genets stem')} from more than one of the ${several}, too few to tell it.`,
      ],
    };
  }
  const found = grid.map((gamma) => likelihood(gamma));
  const best = found.indexOf(Math.max(...found));
  const told = found[best]! > found[grid.indexOf(usual)]! + clearly;
  const gamma = told ? grid[best]! : usual;
  return {
    gamma,
    words: [
      told
        ? `Founders of one taxon or provenance are taken as kin of one another as the ${several} and their crosses show (γ = ${gamma}, where 0 is unrelated and 2 all alike).`
        : `Founders of one taxon or provenance are taken as kin of one another (γ = ${gamma}, where 0 is unrelated and 2 all alike): the usual value, as the notes on the ${several} and their crosses do not tell it.`,
    ],
  };
}

/** Founder groups that noted genets stem from, and how many noted genets stem from several. */
function groupsOfNoted(
  entries: readonly PedigreeEntry[],
  noted: ReadonlySet<string>,
): { groups: number; crosses: number } {
  const byGenet = new Map(entries.map((entry) => [entry.genet, entry]));
  const known = new Map<string, ReadonlySet<string>>();
  const groupsOf = (genet: string): ReadonlySet<string> => {
    // Parents come before progeny on the stack of those still waiting for theirs.
    const waiting = [genet];
    while (waiting.length > 0) {
      const one = waiting.at(-1)!;
      const entry = byGenet.get(one)!;
      const missing = known.has(one) ? [] : sourcesOf(entry).filter((source) => !known.has(source));
      if (missing.length > 0) {
        waiting.push(...missing);
        continue;
      }
      waiting.pop();
      if (known.has(one)) continue;
      const groups = new Set(sourcesOf(entry).flatMap((source) => [...known.get(source)!]));
      if (entry.group !== null) groups.add(entry.group);
      known.set(one, groups);
    }
    return known.get(genet)!;
  };
  const all = [...noted].map(groupsOf);
  return {
    groups: new Set(all.flatMap((groups) => [...groups])).size,
    crosses: all.filter((groups) => groups.size > 1).length,
  };
}
