export { beyondTrait } from './beyond-reach.ts';
export { type Brief, BriefError, type BriefLimit, type BriefTrait } from './brief.ts';
export { checkBrief } from './check-brief.ts';
export type { ClassCounts, ClassEvidence } from './class-chances.ts';
export type { BriefEvidence, BriefGenet, MatchControl } from './evidence.ts';
export {
  type BriefData,
  evidenceFromNotes,
  matchFromNotes,
  type ReckonControl,
} from './evidence-from-notes.ts';
export type * from './match.ts';
export { matchBrief } from './match-brief.ts';
export { type Line, lineKey, linesOf, requirementOf } from './requirement.ts';
