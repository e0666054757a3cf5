import type { BriefEvidence } from './evidence.ts';
import type { HeldLimit } from './held-limits.ts';

/** What to know before trusting the chances, in full sentences. */
export function heedOf(limits: readonly HeldLimit[], { joint }: BriefEvidence): string[] {
  const told = limits.filter(({ unknown }) => unknown === null);
  const heed = limits.flatMap(({ words, limit, unknown }) =>
    unknown === null
      ? []
      : [
          `${limit.must ? 'A must that is not counted in the chance' : 'A wish that is not counted'}: ${words}. ${unknown}`,
        ],
  );
  if (!limits.some(({ limit }) => limit.must))
    heed.push('This brief has no must, so there is no chance to meet it: plants are ranked by its wishes.');
  if (told.some(({ requirement, intervals }) => requirement.kind === 'intervals' && intervals.length === 2))
    heed.push(
      'In flower means: first flower not after the last day of the weeks and the end of flower (full flower where the end is not noted) not before their first, in an average year.',
    );
  if (told.some(({ prior }) => prior !== null))
    heed.push(
      'Classes are reckoned from each genet’s own notes and the garden’s shares, not from kin, and as independent of the other traits.',
    );
  return [...heed, ...joint.words];
}
