import type { Profile } from '@keelrow/breeding/facts';
import type { GenetPage } from '@keelrow/records';

/** Plain lines of caution for a plant: protection, poison, plants that seed about, and terms. Each defers to the law. */
export function cautionsFor(
  { profile, protection, terms, genet }: GenetPage,
  profiles: readonly Profile[],
): string[] {
  const lines: string[] = [];
  if (protection !== null) {
    lines.push(
      `Protected kind (${protection || 'marked by hand'}): ask the national and state plant protection authority before collecting, propagating, giving or selling.`,
    );
  }
  const found = profiles.find(
    (candidate) =>
      candidate.profile === profile ||
      (candidate.genus !== null && genet.taxon?.startsWith(`${candidate.genus} `)),
  );
  for (const { text, asOf } of [
    ...(found?.cautions.protection ?? []),
    ...(found?.cautions.poison ?? []),
    ...(found?.cautions.weediness ?? []),
  ]) {
    lines.push(asOf ? `${text} (as of ${asOf})` : text);
  }
  if (terms.length > 0)
    lines.push('Terms bind this plant or its ancestors; read them before you give, sell or publish.');
  return lines;
}
