export type { Rect } from './canvas.ts';
export { type CloseChange, closeChange } from './change.ts';
export { type ClosedPicture, type CutLine, closePicture } from './close-picture.ts';
export {
  type CloseOrder,
  type ClosePlan,
  LEAST_STRIP,
  planClose,
  refuseMirrors,
  type WayPlan,
} from './close-plan.ts';
export { drawCut } from './draw-cut.ts';
export type { LitPicture } from './lit-picture.ts';
export { type Cut, type CutCosts, minimumCut, NEVER } from './minimum-cut.ts';
export { divideLight, type SlowLight, type SlowLightOptions, slowLight } from './slow-light.ts';
export type { Term } from './slow-surface.ts';
