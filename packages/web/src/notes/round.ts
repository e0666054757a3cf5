import { isDate } from '@keelrow/breeding/facts';
import type { BedPlan, TraitShown } from '@keelrow/server/contract';

/** What is looked at on one go: which bed, which traits, on which day. */
export interface Round {
  readonly place: string;
  readonly traits: readonly string[];
  readonly on: string;
}

const kept = 'keelrow-round';

/** The round in the address; else the last one; else the first bed with plants and the traits noted most. */
export function chosenRound(
  search: {
    readonly place?: string | undefined;
    readonly traits?: string | undefined;
    readonly on?: string | undefined;
  },
  plan: BedPlan | undefined,
  traits: readonly TraitShown[] | undefined,
  today: string,
): Round | null {
  if (!plan || !traits || traits.length === 0) return null;
  const last = lastRound();
  const bed = (code: string | undefined): string | undefined =>
    plan.beds.find((one) => one.code === code)?.code;
  const known = (codes: readonly string[]): string[] =>
    codes.filter((code) => traits.some((one) => one.code === code));
  const place = bed(search.place) ?? bed(last?.place) ?? plan.beds.find(({ plants }) => plants > 0)?.code;
  if (place === undefined) return null;
  const wanted = search.traits === undefined ? known(last?.traits ?? []) : known(search.traits.split(','));
  const usual = [...traits].sort((a, b) => b.notes - a.notes).slice(0, 3);
  return {
    place,
    traits: wanted.length > 0 || search.traits !== undefined ? wanted : usual.map(({ code }) => code),
    on: search.on && isDate(search.on) && search.on <= today ? search.on : today,
  };
}

export const keepRound = (round: Round): void =>
  localStorage.setItem(kept, JSON.stringify({ place: round.place, traits: round.traits }));

function lastRound(): { place: string; traits: string[] } | null {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(kept) ?? 'null');
    if (!read || typeof read !== 'object' || !('place' in read) || !('traits' in read)) return null;
    const { place, traits } = read;
    return typeof place === 'string' && Array.isArray(traits) ? { place, traits: traits.map(String) } : null;
  } catch {
    return null;
  }
}
