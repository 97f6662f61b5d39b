export { type Ink, printedInks, type ShadeCard } from './card.ts';
export { type Colourway, inkKey, inkPlace, ownColourway } from './colourway.ts';
export {
  ALIKE_DIFFERENCE,
  type ColourwayDoubt,
  colourwayDoubts,
  LIGHT_AND_DARK,
} from './colourway-doubts.ts';
export * from './dots.ts';
export { linearInks } from './linear-inks.ts';
export { isMisfit, type Misfit, measureMisfit } from './misfit.ts';
export { mixInto } from './mix.ts';
export { MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
export { demichelWeights, dotShare, type Light3, overprint, toneReflectance } from './overprint.ts';
export { isWhole, plateBits } from './plate-dots.ts';
export { bytesOfLight, proofRow } from './plate-proof.ts';
export { type Plates, separate } from './plates.ts';
export { type PressCurve, type PressGain, pressCurve } from './press.ts';
export { createRecolourer, type Recolourer } from './recolour.ts';
export { createRuledDots, type RuledDotsWish } from './ruled-dots.ts';
export { createScatteredDots, type ScatteredDotsWish } from './scattered-dots.ts';
export { type Trapped, trapPlates } from './trap.ts';
export { createUnmixer, MOST_INKS, type Unmixer } from './unmix.ts';
