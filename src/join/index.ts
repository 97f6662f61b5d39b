export type { LitPicture } from './lit-picture.ts';
export { divideLight, type SlowLight, type SlowLightOptions, slowLight } from './slow-light.ts';
export type { Term } from './slow-surface.ts';
