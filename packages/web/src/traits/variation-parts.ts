import type { TraitModel } from '@keelrow/server/contract';

/** How a part is filled: what is handed on, what else a genet is, and what is circumstance, in turns. */
type Look = 'part-handed-on' | 'part-genet' | 'part-odd' | 'part-even' | 'part-rest';

export interface VariationPart {
  readonly term: string;
  readonly words: string;
  /** Its number in bar and table, from 1. */
  readonly number: number;
  /** Of the whole, 0 to 1. */
  readonly share: number;
  /** Standard deviation, and its standard error where the variance has one. */
  readonly spread: number;
  readonly spreadSe: number | null;
  readonly look: Look;
}

/** Variances as numbered parts of a whole. A spread is a square root: its error is the variance's over twice the spread. */
export function partsOf(variances: TraitModel['report']['variances']): VariationPart[] {
  const total = variances.reduce((sum, { estimate }) => sum + Math.max(0, estimate), 0);
  const order = [...variances].sort((a, b) => place(a.term) - place(b.term));
  return order.map(({ term, words, estimate, se }, index) => {
    const spread = Math.sqrt(Math.max(0, estimate));
    return {
      term,
      words,
      number: index + 1,
      share: total > 0 ? Math.max(0, estimate) / total : 0,
      spread,
      spreadSe: se === null || spread === 0 ? null : se / (2 * spread),
      look: lookOf(term, index),
    };
  });
}

/** What a genet is comes first, what nothing explains last. */
function place(term: string): number {
  if (term === 'additive') return 0;
  if (term === 'genet') return 1;
  return term === 'residual' ? 3 : 2;
}

function lookOf(term: string, index: number): Look {
  if (term === 'additive') return 'part-handed-on';
  if (term === 'genet') return 'part-genet';
  if (term === 'residual') return 'part-rest';
  return index % 2 === 0 ? 'part-even' : 'part-odd';
}
