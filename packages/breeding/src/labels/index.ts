export { checkCharacter } from './check-character.ts';
export { labelPayload } from './label-payload.ts';
export { type LabelReading, readLabelCode } from './read-label-code.ts';
