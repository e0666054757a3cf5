export { drawModelGarden } from './draw-model-garden.ts';
export type { ModelGarden, ModelTrait, ModelWorldOptions } from './model-garden.ts';
