/**
 * Texts in spreadsheet files write signs that XML cannot hold as `_xHHHH_`, and an underscore that would look like the start
 * of such a code as `_x005F_`. Source: ECMA-376 part 1, 22.9.2.19 (ST_Xstring).
 */
export function unescapeText(text: string): string {
  if (!text.includes('_x')) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) =>
    String.fromCharCode(Number.parseInt(code, 16)),
  );
}

// Signs that XML 1.0 does not allow, halves of surrogate pairs, and carriage returns, which XML would turn into line feeds.
const notInXml = /(?![\t\n])[\p{Cc}\p{Cs}\ufffe\uffff]/gu;
// An underscore that would look like the start of a code, also where the sign behind it is going to be escaped itself.
const likeCode = /_(?=x[0-9A-Fa-f]{4}(?:_|(?![\t\n])[\p{Cc}\p{Cs}\ufffe\uffff]))/gu;

/** The inverse of `unescapeText`. */
export function escapeText(text: string): string {
  return text
    .replace(likeCode, '_x005F_')
    .replace(notInXml, (sign) => `_x${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`);
}
