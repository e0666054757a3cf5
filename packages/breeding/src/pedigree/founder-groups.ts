import type { FounderKinship, PedigreeEntry } from './entry.ts';
import { PedigreeError } from './pedigree-error.ts';

/** Founder groups that are kin among themselves, as equations ahead of all genets (metafounders; Legarra and others 2015). */
export interface FounderGroups {
  /** Equation of each group; groups of unrelated founders have none. */
  readonly equations: ReadonlyMap<string, number>;
  /** Γ, row by row, its inverse and log-determinant. */
  readonly kinship: Float64Array;
  readonly inverse: Float64Array;
  readonly logDeterminant: number;
}

/** Reads Γ for the groups that occur. */
export function founderGroups(
  entries: readonly PedigreeEntry[],
  founders: FounderKinship | undefined,
): FounderGroups {
  const equations = new Map<string, number>();
  const diagonal: number[] = [];
  if (founders) {
    const { within } = founders;
    refuseUnknownGroups(entries, founders);
    const seen = new Set<string>();
    for (const { group } of entries) {
      if (group === null || seen.has(group)) continue;
      seen.add(group);
      const gamma = typeof within === 'number' ? within : (within.get(group) ?? 0);
      if (!(gamma >= 0 && gamma < 2)) {
        throw new PedigreeError(
          `the kinship of founders within the group “${group}” is ${gamma}`,
          'Give a number from 0 (unrelated) to just below 2 (all alike)',
        );
      }
      if (gamma === 0) continue;
      equations.set(group, diagonal.length);
      diagonal.push(gamma);
    }
  }
  const size = diagonal.length;
  const kinship = new Float64Array(size * size);
  for (let g = 0; g < size; g++) kinship[g * size + g] = diagonal[g]!;
  for (const { groups, kinship: gamma } of founders?.between ?? []) {
    const [a, b] = groups.map((group) => equations.get(group));
    if (a === undefined || b === undefined || a === b) {
      const [first, second] = groups;
      throw new PedigreeError(
        first === second
          ? `the kinship between groups names “${first}” twice`
          : `the groups “${first}” and “${second}” are given a kinship between them, but “${a === undefined ? first : second}” has none within`,
        first === second
          ? 'Name two groups, or give it as the kinship within the group'
          : 'Give a kinship within each of the two as well',
      );
    }
    kinship[a * size + b] = gamma;
    kinship[b * size + a] = gamma;
  }
  return { equations, kinship, ...inverseOf(kinship, size) };
}

const MOST_NAMED = 12;

/** Refuses a kinship of a group that no genet is in: the name is likely a slip. */
function refuseUnknownGroups(
  entries: readonly PedigreeEntry[],
  { within, between = [] }: FounderKinship,
): void {
  const asked = [
    ...(typeof within === 'number' ? [] : within.keys()),
    ...between.flatMap(({ groups }) => groups),
  ];
  if (asked.length === 0) return;
  const known = new Set<string>();
  for (let i = 0; i < entries.length; i++) {
    const { group } = entries[i]!;
    if (group !== null) known.add(group);
  }
  const unknown = asked.find((group) => !known.has(group));
  if (unknown === undefined) return;
  const names = [...known].sort().map((group) => `“${group}”`);
  const listed = names.slice(0, MOST_NAMED).join(', ');
  throw new PedigreeError(
    `a kinship of founders is given for the group “${unknown}”, but no genet is of that group`,
    names.length === 0
      ? 'Put the groups of founders into the column group, or leave their kinship out'
      : `Its groups are ${listed}${names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : ''}; mend the name`,
  );
}

/** Inverse and log-determinant of a small positive definite matrix, by its Cholesky factor. */
function inverseOf(matrix: Float64Array, size: number): { inverse: Float64Array; logDeterminant: number } {
  const factor = matrix.slice();
  let logDeterminant = 0;
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let sum = factor[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= factor[i * size + k]! * factor[j * size + k]!;
      if (i === j) {
        if (!(sum > 1e-10)) {
          throw new PedigreeError(
            'the kinships given between founder groups do not go together with those within them',
            'Give two groups at most as much kinship between them as the less close of the two has within',
          );
        }
        factor[j * size + j] = Math.sqrt(sum);
        logDeterminant += Math.log(sum);
      } else factor[i * size + j] = sum / factor[j * size + j]!;
    }
  }
  const inverse = new Float64Array(size * size);
  for (let c = 0; c < size; c++) {
    const x = new Float64Array(size);
    x[c] = 1;
    for (let i = 0; i < size; i++) {
      for (let k = 0; k < i; k++) x[i] = x[i]! - factor[i * size + k]! * x[k]!;
      x[i] = x[i]! / factor[i * size + i]!;
    }
    for (let i = size - 1; i >= 0; i--) {
      for (let k = i + 1; k < size; k++) x[i] = x[i]! - factor[k * size + i]! * x[k]!;
      x[i] = x[i]! / factor[i * size + i]!;
    }
    for (let i = 0; i < size; i++) inverse[i * size + c] = x[i]!;
  }
  return { inverse, logDeterminant };
}
