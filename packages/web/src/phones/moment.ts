/** A moment (ISO 8601) on this computer's clock, as `20 May 2031, 08:40`. */
export const momentInWords = (moment: string): string =>
  new Date(moment).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });
