/** The date in a time zone as `2031-05-20`, by the given clock; not before a date known to have come already. */
export function todayOnPhone(timeZone: string, notBefore: string, now: Date = new Date()): string {
  const parts = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  }).format(now);
  return parts > notBefore ? parts : notBefore;
}
