export { type Ink, printedInks, type ShadeCard } from './card.ts';
export { MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
