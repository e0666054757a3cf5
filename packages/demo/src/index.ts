export * from './calibration/index.ts';
export type {
  SimulatedCorrection,
  SimulatedGarden,
  SimulatedRecord,
  SimulatedWithdrawal,
  SimulateOptions,
} from './garden.ts';
export type { CharacterName } from './genetics/characters.ts';
export type { Pigments } from './genetics/gene-bank.ts';
export type { Stage } from './growth/plant-year.ts';
export {
  drawModelGarden,
  type ModelGarden,
  type ModelTrait,
  type ModelWorldOptions,
} from './model-world/index.ts';
export { simulateGarden } from './simulate-garden.ts';
export type { GardenTruth, TrueLabel, TrueOrigin } from './truth/truth.ts';
