/** Signs that make a spreadsheet program take a cell for a formula, their wide forms included. */
const formulaStart = /^'*[=+\-@\t\r\n＝＋－＠]/;
const guarded = /^'+[=+\-@\t\r\n＝＋－＠]/;
const plainNumber = /^[+-]?\d+(\.\d+)?$/;

/** Puts an apostrophe before a text that a spreadsheet program would run as a formula. Plain numbers stay as they are. */
export function addFormulaGuard(text: string): string {
  return formulaStart.test(text) && !plainNumber.test(text) ? `'${text}` : text;
}

/** Takes off the apostrophe that `addFormulaGuard` puts on, and no other: `stripFormulaGuard(addFormulaGuard(t))` is t for every t. */
export function stripFormulaGuard(text: string): string {
  return guarded.test(text) ? text.slice(1) : text;
}
