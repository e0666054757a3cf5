/** Whether a text in a header row looks like a value rather than a name: a number that is no year, or a date. */
export function looksLikeData(text: string): boolean {
  if (/^(1[89]|20|21)\d\d$/.test(text)) return false;
  return /^[+\-−]?\d+([.,]\d+)?$/.test(text) || /^\d{1,4}[./-]\d{1,2}[./-]\d{1,4}$/.test(text);
}
