/** Whether a cell holds nothing but white space. */
export function isBlank(text: string): boolean {
  return text.trim() === '';
}
