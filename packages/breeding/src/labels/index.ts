export { checkCharacter } from './check-character.ts';
export { type Fitted, fitText, type Room } from './fit-text.ts';
export { labelPayload } from './label-payload.ts';
export {
  drawCode,
  type LabelDrawn,
  type LabelLead,
  type LabelSize,
  type LabelText,
  layOutLabel,
} from './lay-out-label.ts';
export { layOutRound, mostTraits, type RoundOnPaper, type RoundPage } from './lay-out-round.ts';
export {
  type LabelForm,
  type LabelPage,
  labelSizeOf,
  layOutSheets,
  type PaperName,
  type PlacedLabel,
  papers,
  type SheetGrid,
} from './lay-out-sheets.ts';
export { type LabelReading, readLabelCode } from './read-label-code.ts';
export type { Measure, QrModules, Shape, Weight } from './shapes.ts';
