import type { Evaluation } from '../evaluation.ts';
import type { InformationParts, InformationSource } from '../report.ts';
import { valueParts } from '../value-parts.ts';

const sources: readonly [InformationSource, string][] = [
  ['own notes', 'its own notes'],
  ['clones', 'plants raised from it, and what it was raised from, as clones'],
  ['parents', 'its parents'],
  ['sibs', 'genets that share a parent with it'],
  ['offspring', 'its seedlings'],
  ['other kin', 'more distant kin'],
  ['inbreeding', 'its inbreeding, by what inbreeding does to all'],
  ['others', 'all other genets, by the level that it is measured against'],
];

/**
 * Where an estimate came from. A predicted random effect is a weighted sum of the notes less the fixed part of each, û =
 * Σ wᵣ (yᵣ − xᵣ'b̂) (Henderson 1963), so the notes' parts, added up by whose they are, sum to the effect: the distance from
 * the average noted genet, on the scale of the sums.
 */
export function informationParts(evaluation: Evaluation, genet: string): InformationParts {
  const { fitted, table, model, notes, notedGenets, scale, kin, depression } = evaluation;
  const share = 1 / notedGenets.size;
  const difference = valueParts(evaluation).flatMap(({ effectOf }) =>
    [effectOf(genet, 1) ?? [], ...[...notedGenets].map((noted) => effectOf(noted, -share) ?? [])].flat(),
  );
  const weights = fitted.rowWeights(difference);
  const { fixedPart } = fitted.fittedRows();
  const values = table.columns.get(model.response)!;
  const sourceOf = kin?.sourcesFor(genet) ?? ((other: string) => (other === genet ? 'own notes' : 'others'));
  const found = new Map<InformationSource, { notes: number; effect: number }>();
  for (const [row, note] of notes.entries()) {
    const from = sourceOf(note.genet);
    const part = found.get(from) ?? { notes: 0, effect: 0 };
    part.notes++;
    part.effect += weights[row]! * (Number(values[row]) - fixedPart[row]!);
    found.set(from, part);
  }
  if (depression) {
    const mean = share * [...notedGenets].reduce((sum, noted) => sum + depression.inbreeding(noted), 0);
    found.set('inbreeding', {
      notes: 0,
      effect: depression.slope * (depression.inbreeding(genet) - mean),
    });
  }
  const parts = sources.flatMap(([from, words]) => {
    const part = found.get(from);
    return part ? [{ from, words, ...part }] : [];
  });
  return {
    genet,
    scale: scale.name,
    effect: parts.reduce((sum, { effect }) => sum + effect, 0),
    parts,
  };
}
