import {
  type AnyRow,
  type Field,
  type FieldProblem,
  fieldsOf,
  type KindName,
  readParents,
  writeParents,
} from '@keelrow/breeding/facts';

/** Largest whole number that both databases keep: PostgreSQL's integer has 32 bits. */
const largest = 2_147_483_647;
/** A zero sign, which PostgreSQL refuses in text, and halves of characters, which no database gives back as they were. */
const unkept = /[\0\p{Cs}]/u;

/**
 * What of a record could not be kept, or not be written into a file and read again, although its kind allows it:
 * by the limits of the databases and the notation of parents.
 */
export function storableProblems(kind: KindName, row: AnyRow): FieldProblem[] {
  const problems: FieldProblem[] = [];
  for (const [name, field] of fieldsOf(kind)) {
    const problem = problemOf(field, row[name]);
    if (problem) problems.push({ field: name, ...problem });
  }
  if (kind === 'genets' && typeof row.code === 'string' && problems.length === 0) {
    const problem = namableProblem(row.code);
    if (problem) problems.push({ field: 'code', ...problem });
  }
  return problems;
}

type Problem = { problem: string; remedy: string } | null;

function problemOf(field: Field, value: AnyRow[string]): Problem {
  const texts =
    typeof value === 'string' ? [value] : field.type === 'list' && Array.isArray(value) ? value : [];
  if (texts.some((text) => typeof text === 'string' && unkept.test(text)))
    return {
      problem: 'the text holds a sign that cannot be stored (a zero, or half of a character)',
      remedy: 'type it anew',
    };
  if (field.type === 'integer' && typeof value === 'number' && Math.abs(value) > largest)
    return { problem: `${value} is too large`, remedy: `the most is ${largest}` };
  return null;
}

/** Genets stand among parents by their codes: one that reads as several parents, or as a self, would be taken for them. */
function namableProblem(code: string): Problem {
  for (const chance of [1, 0.5]) {
    const read = readParents(writeParents([{ genet: code, chance }]), 'pollen');
    if ('problem' in read || read.length !== 1 || read[0]!.genet !== code || code === 'self')
      return {
        problem: `“${code}” cannot be the code of a genet: among parents it would read as something else`,
        remedy: 'choose a code without semicolons, that is not “self” and does not end like a chance (:0.5)',
      };
  }
  return null;
}
