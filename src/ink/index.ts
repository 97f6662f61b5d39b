export { artworkInks } from './artwork-inks.ts';
export { groundColour, type Ink, printedInks, type ShadeCard } from './card.ts';
export { type Colourway, findInk, inkKey, inkPlace, ownColourway } from './colourway.ts';
export {
  ALIKE_DIFFERENCE,
  type ColourwayDoubt,
  colourwayDoubts,
  LIGHT_AND_DARK,
} from './colourway-doubts.ts';
export * from './dots.ts';
export { type CardError, type CardMeasure, measureCard } from './measure-card.ts';
export { isMisfit, type Misfit, measureMisfit } from './misfit.ts';
export { blankMixture, MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
export { isWhole, plateBits } from './plate-dots.ts';
export { bytesOfLight, proofRow } from './plate-proof.ts';
export { type Plates, separate } from './plates.ts';
export { type PressCurve, type PressGain, pressCurve } from './press.ts';
export { createRecolourer, type Recolourer } from './recolour.ts';
export { markedRows } from './register-marks.ts';
export { createRuledDots, type RuledDotsWish } from './ruled-dots.ts';
export { createScatteredDots, type ScatteredDotsWish } from './scattered-dots.ts';
export {
  type ScreenChoice,
  type ScreenColour,
  type ScreenColours,
  screenColours,
  type TextureWay,
} from './screen-colours.ts';
export { carriedOver, type OpenScreening, openScreening, type ScreeningPlan } from './screening.ts';
export { createSquareSums, type SeenDifference, type SquareSums } from './seen-difference.ts';
export { type Tally, tallyColours } from './tally.ts';
export { openToneFinder, type ToneFinder } from './tone-finder.ts';
export { requireScreens } from './too-many-inks.ts';
export { type Trapped, trapPlates } from './trap.ts';
export { printUnder } from './under-print.ts';
export { createUnmixer, MOST_INKS, type Unmixer } from './unmix.ts';
export { type Deficiency, type NearPair, nearPairs } from './vision.ts';
