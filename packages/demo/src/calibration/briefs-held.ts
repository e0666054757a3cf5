import { type BriefTrait, evidenceFromNotes, matchBrief } from '@keelrow/breeding/brief';
import { shown, type TraitNote } from '@keelrow/breeding/evaluation';
import type { PedigreeEntry } from '@keelrow/breeding/pedigree';
import { seededRandom } from '@keelrow/quant';
import { type AskedTrait, briefForShare, type ChanceBin, chanceBins } from './brief-chances.ts';

/** Shares of the genets that seem to meet each limit of a brief. */
export const briefShares = [0.5, 0.75] as const;

/** A trait with its notes, and the true values of the genets that briefs are held against. */
export interface BriefedTrait extends Pick<AskedTrait, 'wanted' | 'truths'> {
  readonly trait: Omit<BriefTrait, 'notes'>;
  readonly notes: readonly TraitNote[];
}

export interface HeldBrief {
  readonly share: number;
  readonly bins: readonly ChanceBin[];
}

/** What briefs on the better part of the genets in each trait tell of all of them, beside what is so. */
export function briefsHeld(
  briefed: readonly BriefedTrait[],
  pedigree: readonly PedigreeEntry[] | null,
): HeldBrief[] {
  const genets = [...briefed[0]!.truths.keys()];
  // Any brief on these traits gives the same evidence.
  const any = briefed.map(({ trait, wanted, truths }) => ({
    trait: trait.code,
    wanted,
    told: truths,
    truths,
  }));
  const evidence = evidenceFromNotes({
    brief: briefForShare(any, briefShares[0]),
    traits: briefed.map(({ trait, notes }) => ({ ...trait, notes: notes.length })),
    genets: genets.map((id) => ({ id, code: id, name: null, standard: false })),
    pedigree,
    lines: briefed.map(({ trait, notes }) => ({ line: { trait: trait.code, axis: null }, notes })),
    classes: [],
  });
  const { joint } = evidence;
  const asked = any.map(({ trait, wanted, truths }): AskedTrait => {
    const at = joint.keys.indexOf(trait);
    const likely = (genet: string) => shown(joint.scales[at]!, joint.of(genet).mean[at]!);
    return { trait, wanted, told: new Map(genets.map((id) => [id, likely(id)])), truths };
  });
  return briefShares.map((share) => {
    const brief = briefForShare(asked, share);
    const { plants } = matchBrief(brief, evidence, seededRandom('calibration'));
    return { share, bins: chanceBins(plants, brief, asked) };
  });
}
