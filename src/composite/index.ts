export { layBelow } from './below.ts';
export { layBleed, type Running } from './bleed.ts';
export { type HandLayer, type HandOptions, type HandPart, layersByHand } from './by-hand.ts';
export { halveRows } from './halve.ts';
export { type LaidAgain, measureLaidAgain } from './laid-again.ts';
export { type LayOptions, layLayer } from './lay.ts';
export { layThrough } from './lay-through.ts';
export { copyPart, type LayerPart, planesOf, putPart, trimLayer } from './layer-part.ts';
export { DEFAULT_LIGHT, LIGHT_RANGES, type Light } from './light.ts';
export {
  type ColourMask,
  colourOfBytes,
  labOfColour,
  type MaskFiller,
  maskShare,
  openColourMask,
} from './mask.ts';
export { addImage, type BandImage, type FollowPlan, planFollow, weighOwn } from './mirrored.ts';
export { lightRelief, openLight, type ReliefLight } from './relief.ts';
export { resample, resamplePart, type TilePixels, type TileSource } from './resample.ts';
export { type ShiftSource, sampleShifted } from './shift.ts';
export { type SoftLevel, type SoftSource, softenRows } from './soft-level.ts';
export type { Strength } from './strength.ts';
export { type Pixels, readBand, writeBand } from './working.ts';
