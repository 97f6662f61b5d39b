export { type Ink, printedInks, type ShadeCard } from './card.ts';
export { linearInks } from './linear-inks.ts';
export { type CardError, type CardMeasure, measureCard } from './measure-card.ts';
export { mixInto } from './mix.ts';
export { MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
export { type Tally, tallyColours } from './tally.ts';
export { createUnmixer, MOST_INKS, type Unmixer } from './unmix.ts';
export { type Deficiency, type NearPair, nearPairs } from './vision.ts';
