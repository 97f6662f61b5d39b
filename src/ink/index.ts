export { type Ink, printedInks, type ShadeCard } from './card.ts';
export { type Colourway, inkKey, inkPlace, ownColourway } from './colourway.ts';
export {
  ALIKE_DIFFERENCE,
  type ColourwayDoubt,
  colourwayDoubts,
  LIGHT_AND_DARK,
} from './colourway-doubts.ts';
export { isMisfit, type Misfit, measureMisfit } from './misfit.ts';
export { MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
export { createRecolourer, type Recolourer } from './recolour.ts';
export { createUnmixer, MOST_INKS, type Unmixer } from './unmix.ts';
