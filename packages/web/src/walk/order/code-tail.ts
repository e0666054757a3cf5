import { readLabelCode } from '@keelrow/breeding/labels';

interface Coded {
  readonly code: string;
}

export interface FoundByTail<Plant> {
  /** Best first. */
  readonly plants: readonly Plant[];
  /** The check character that was typed does not fit the code found. */
  readonly checkWrong: boolean;
}

/**
 * Plants whose code ends as typed: whole codes first, then ends that begin where a part of the code begins, then any.
 * `3/1` finds `2031-004-3/1`; a check character typed along is tolerated; signs between letters and digits may be left out.
 */
export function plantsByTail<Plant extends Coded>(
  plants: readonly Plant[],
  typed: string,
): FoundByTail<Plant> {
  for (const { code, check } of readLabelCode(typed)) {
    const found = endingSo(plants, code);
    if (found.length > 0) return { plants: found, checkWrong: check === 'wrong' };
  }
  return { plants: [], checkWrong: false };
}

function endingSo<Plant extends Coded>(plants: readonly Plant[], tail: string): Plant[] {
  const asTyped = ranked(plants, tail.toUpperCase(), rankAsTyped);
  // Signs that were typed are meant, unless nothing ends with them.
  if (asTyped.length > 0 && [...tail].some(isSign)) return asTyped;
  return [...new Set([...asTyped, ...ranked(plants, tail.toUpperCase(), rankWithoutSigns)])];
}

function ranked<Plant extends Coded>(
  plants: readonly Plant[],
  tail: string,
  rankOf: (code: string, tail: string) => number | null,
): Plant[] {
  const withRank = plants.flatMap((plant) => {
    const rank = rankOf(plant.code.toUpperCase(), tail);
    return rank === null ? [] : [{ plant, rank }];
  });
  return withRank.sort((a, b) => a.rank - b.rank).map(({ plant }) => plant);
}

/** 0 the whole code, 1 its last parts, 2 an end within a part; null: it ends otherwise. */
function rankAsTyped(code: string, tail: string): number | null {
  if (code === tail) return 0;
  if (!code.endsWith(tail)) return null;
  const edge = code[code.length - tail.length - 1]!;
  return isSign(edge) || isSign(tail[0]!) ? 1 : 2;
}

function rankWithoutSigns(code: string, tail: string): number | null {
  const plain = withoutSigns(tail);
  if (plain === '' || !withoutSigns(code).endsWith(plain)) return null;
  return partEnds(code).has(plain) ? 1 : 2;
}

const isSign = (character: string): boolean => !/[\p{L}\p{N}]/u.test(character);
const withoutSigns = (text: string): string => [...text].filter((character) => !isSign(character)).join('');

/** The ends of a code that begin where one of its parts begins, without signs. */
function partEnds(code: string): ReadonlySet<string> {
  const parts = code.split(/[^\p{L}\p{N}]+/u).filter(Boolean);
  return new Set(parts.map((_, index) => parts.slice(index).join('')));
}
