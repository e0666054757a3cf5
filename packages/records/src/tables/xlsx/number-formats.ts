import { limits } from '../limits.ts';
import type { Archive } from './archive.ts';
import { attribute, readXml } from './xml-events.ts';

/** What a number format makes of a number. */
export type NumberKind =
  | { readonly kind: 'number' | 'date' | 'time' | 'percent' }
  /** Whole numbers shown with leading zeros up to `digits`, as codes are. */
  | { readonly kind: 'padded'; readonly digits: number };

const plain: NumberKind = { kind: 'number' };

/** Kind of each cell style, by its index: ECMA-376 part 1, 18.8. */
export async function readStyleKinds(archive: Archive, part: string | undefined): Promise<NumberKind[]> {
  const kinds: NumberKind[] = [];
  if (part === undefined) return kinds;
  const codes = new Map<number, string>();
  let inCellStyles = false;
  await readXml(archive.name, archive.read(part, limits.partBytes), {
    open(name, attributes) {
      if (name === 'cellXfs') inCellStyles = true;
      else if (name === 'numFmt')
        codes.set(Number(attribute(attributes, 'numFmtId')), attribute(attributes, 'formatCode') ?? '');
      else if (name === 'xf' && inCellStyles)
        kinds.push(formatKind(Number(attribute(attributes, 'numFmtId') ?? 0), codes));
    },
    close(name) {
      if (name === 'cellXfs') inCellStyles = false;
    },
  });
  return kinds;
}

function formatKind(id: number, codes: ReadonlyMap<number, string>): NumberKind {
  const code = codes.get(id);
  return code === undefined ? builtInKind(id) : codeKind(code);
}

/** Formats known by number alone, 18.8.30; 27 to 36 and 50 to 58 are dates in East Asian programs. */
function builtInKind(id: number): NumberKind {
  if (id === 9 || id === 10) return { kind: 'percent' };
  if ((id >= 14 && id <= 17) || id === 22 || (id >= 27 && id <= 31) || id === 36 || (id >= 50 && id <= 58))
    return { kind: 'date' };
  if ((id >= 18 && id <= 21) || (id >= 32 && id <= 35) || (id >= 45 && id <= 47)) return { kind: 'time' };
  return plain;
}

/** Kind of a format code, 18.8.31: y and d make a date, m does where neither hours nor seconds stand beside it. */
export function codeKind(code: string): NumberKind {
  const first = code.replace(/"[^"]*"|\\.|[_*]./g, '').split(';')[0] ?? '';
  const elapsed = /\[(h+|m+|s+)\]/i.test(first);
  const bare = first
    .replace(/\[[^\]]*\]/g, '')
    .replace(/general/i, '')
    .replace(/am\/pm|a\/p/i, 'h')
    .toLowerCase();
  if (/^0{2,}$/.test(bare)) return { kind: 'padded', digits: bare.length };
  if (/[yd]/.test(bare)) return { kind: 'date' };
  if (elapsed || /[hs]/.test(bare)) return { kind: 'time' };
  if (/m/.test(bare)) return { kind: 'date' };
  return bare.includes('%') ? { kind: 'percent' } : plain;
}
