import { unitNamed } from '@keelrow/breeding/facts';

/** Words that are units after an underscore or in brackets, but ordinary words or letters after a space. */
const doubtfulAfterSpace = new Set([
  'in',
  'd',
  'h',
  's',
  'l',
  'm',
  'min',
  'grad',
  'ans',
  'foot',
  'pound',
  'day',
  'week',
  'month',
  'year',
  'second',
]);

/** A longer text is no column name, and would take the patterns below long. */
const longestHeader = 200;

/**
 * Takes the unit off a column name: `Height (cm)`, `Height [in]`, `Height, cm`, `Height / cm`, `height_cm`, `Temp °F`, `tmin_c`.
 * What stands in brackets and is no known unit stays part of the name.
 * @returns the unit as its symbol (`inches` is `in`), absent where there is none
 */
export function splitHeader(header: string): { name: string; unit?: string } {
  const text = header.trim();
  if (text.length > longestHeader) return { name: text };
  return inBrackets(text) ?? afterUnderscore(text) ?? afterMark(text) ?? afterSpace(text) ?? { name: text };
}

type Split = { name: string; unit: string } | undefined;

function split(name: string | undefined, unit: string | null | undefined): Split {
  return name && unit ? { name: name.trim(), unit } : undefined;
}

function inBrackets(text: string): Split {
  const match = /^(.*\S)\s*[([{]\s*(?:in\s+)?([^()[\]{}]+?)\s*[)\]}]$/i.exec(text);
  return match ? split(match[1], unitNamed(match[2]!)) : undefined;
}

function afterUnderscore(text: string): Split {
  const match = /^(\S*[^\s_])_([^\s_]+)$/.exec(text);
  if (!match) return undefined;
  const letter = match[2]!.toLowerCase();
  // Temperatures are often written tmin_c, temp_f; elsewhere a single c or f is no unit.
  if (/^t(emp|emperature|min|max|mean|avg)?(_|$)/i.test(match[1]!) && /^[cf]$/.test(letter)) {
    return split(match[1], `°${letter.toUpperCase()}`);
  }
  return split(match[1], unitNamed(match[2]!));
}

function afterMark(text: string): Split {
  const match = /^(.*\S)\s*(?:,|\s\/|:)\s*(\S+)$/.exec(text);
  return match ? split(match[1], unitNamed(match[2]!)) : undefined;
}

function afterSpace(text: string): Split {
  const match = /^(.*\S)\s+(?:in\s+)?(\S+)$/i.exec(text);
  if (!match || doubtfulAfterSpace.has(match[2]!.toLowerCase())) return undefined;
  return split(match[1]!.replace(/\s+in$/i, ''), unitNamed(match[2]!));
}
