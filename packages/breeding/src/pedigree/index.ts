export { additiveTerm } from './additive-term.ts';
export type { FounderKinship, PedigreeEntry } from './entry.ts';
export { type Kinship, kinshipOf } from './kinship.ts';
export { findLoop } from './loops.ts';
export { PedigreeError } from './pedigree-error.ts';
export { withUnlistedParents } from './unlisted-parents.ts';
