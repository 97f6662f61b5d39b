export { layBleed, type Running } from './bleed.ts';
export { type HandLayer, type HandOptions, type HandPart, layersByHand } from './by-hand.ts';
export { type LaidAgain, measureLaidAgain } from './laid-again.ts';
export { type LayOptions, layLayer } from './lay.ts';
export { type ColourMask, type MaskFiller, openColourMask } from './mask.ts';
export { addImage, type BandImage, type FollowPlan, planFollow, weighOwn } from './mirrored.ts';

export { type ShiftSource, sampleShifted } from './shift.ts';
export { type SoftLevel, type SoftSource, softenRows } from './soft-level.ts';
export type { Strength } from './strength.ts';
export { type Pixels, readBand, writeBand } from './working.ts';
