import type { PossibleParent } from './field.ts';

/** What is wrong with a list of possible parents, in words, with what would mend it. */
export interface ParentsProblem {
  readonly problem: string;
}

/** Begins or ends with a colon: half of `A:0.5`. */
const LOOSE_COLON = /^:|:$/;

/** How breeders' lists write a parent that nobody knows, and a pollen parent that nobody chose. Common practice, no source. */
const unknown = {
  seed: /^(?:\?+|-|–|—|unknown|unk\.?|n\/a)$/i,
  pollen: /^(?:\?+|-|–|—|unknown|unk\.?|n\/a|o\.?p\.?|open[ -]pollinated|open)$/i,
};

const chanceShown = (chance: number): string => String(Math.round(chance * 1e6) / 1e6);

/**
 * Reads the parents of one side as files write them.
 * `A` is a known parent; `A:0.5;B:0.3` lists possible ones with their chances, the rest of the chance being an
 * unrelated outsider; `self` (pollen side, in capitals too) is the seed parent itself, `self:0.3` a part of them; empty is
 * unknown, and so are `?`, `-`, `unknown` and, on the pollen side, `OP` (open-pollinated) standing alone. A code that itself holds a colon is read up to its last colon, where a number follows; a colon with nothing
 * before or after it is a slip.
 */
export function readParents(
  text: string,
  side: 'seed' | 'pollen',
): readonly PossibleParent[] | ParentsProblem {
  const parts = text.split(';').map((part) => part.trim());
  const given = parts.filter((part) => part !== '');
  if (given.length === 0 || (given.length === 1 && unknown[side].test(given[0]!))) return [];
  const parents: PossibleParent[] = [];
  for (const part of given) {
    const withChance = /^(.*\S)\s*:\s*([-−+]?[0-9]*[.,]?[0-9]+(?:e-?[0-9]+)?)\s*(%?)$/i.exec(part);
    if (!withChance && LOOSE_COLON.test(part)) {
      return { problem: `“${part}” lacks the ${part.endsWith(':') ? 'chance' : 'genet'}; write it as A:0.5` };
    }
    if (!withChance && given.length > 1) {
      return {
        problem: `“${part}” stands among several possible parents and has no chance; write it as ${part}:0.5`,
      };
    }
    const named = withChance ? withChance[1]! : part;
    const number = withChance?.[2]?.replace(',', '.').replace('−', '-');
    const chance = number === undefined ? 1 : Number(number) / (withChance?.[3] ? 100 : 1);
    parents.push({ genet: /^self$/i.test(named) ? 'self' : named, chance });
  }
  return checkParents(parents, side) ?? parents;
}

/** Checks the chances of possible parents; null if nothing is wrong. */
export function checkParents(
  parents: readonly PossibleParent[],
  side: 'seed' | 'pollen',
): ParentsProblem | null {
  const seen = new Set<string>();
  let sum = 0;
  for (const { genet, chance } of parents) {
    if (genet === 'self' && side === 'seed') {
      return { problem: '“self” belongs under the pollen parent; a seed parent is a genet' };
    }
    if (!(chance > 0 && chance <= 1)) {
      return {
        problem: `the chance of “${genet}” is ${chanceShown(chance)}; a chance lies above 0 and is at most 1`,
      };
    }
    if (seen.has(genet)) return { problem: `“${genet}” is listed twice; add up its chances` };
    seen.add(genet);
    sum += chance;
  }
  if (sum > 1 + 1e-9) {
    return {
      problem: `the chances add up to ${chanceShown(sum)}; together they may be at most 1 (less leaves room for an outsider)`,
    };
  }
  return null;
}

/** Writes parents as files hold them; the reverse of readParents. */
export function writeParents(parents: readonly PossibleParent[]): string {
  const [first] = parents;
  const plain =
    first &&
    !LOOSE_COLON.test(first.genet) &&
    !/:[-−+]?[0-9.,]+%?$/.test(first.genet) &&
    !unknown.pollen.test(first.genet);
  if (parents.length === 1 && first?.chance === 1 && plain) return first.genet;
  return parents.map(({ genet, chance }) => `${genet}:${chance}`).join(';');
}
