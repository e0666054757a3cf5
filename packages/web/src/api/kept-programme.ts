import type { ProgrammeState } from '@keelrow/server/contract';

const place = 'keelrow-programme';

/** What the server last said about the programme, so that the app opens without it; undefined where it never did. */
export function keptProgramme(): ProgrammeState | undefined {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? 'null') as ProgrammeState | null;
    if (!kept?.settings) return undefined;
    return { ...kept, today: todayIn(kept.settings.timeZone, kept.today), warnings: [] };
  } catch {
    return undefined;
  }
}

export function keepProgramme(state: ProgrammeState): void {
  try {
    localStorage.setItem(place, JSON.stringify(state));
  } catch {
    // Without room the app opens with the server alone, as it did before.
  }
}

/** The date in a time zone as `2031-05-20`, by the given clock; not before a date known to have come already. */
export function todayIn(timeZone: string, notBefore: string, now: Date = new Date()): string {
  const today = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  }).format(now);
  return today > notBefore ? today : notBefore;
}
