export { type Ink, printedInks, type ShadeCard } from './card.ts';
export * from './dots.ts';
export { linearInks } from './linear-inks.ts';
export { mixInto } from './mix.ts';
export { MIXED_INKS, type Mixture, WHOLE } from './mixture.ts';
export { createRuledDots, type RuledDotsWish } from './ruled-dots.ts';
export { createScatteredDots, type ScatteredDotsWish } from './scattered-dots.ts';
export { createUnmixer, MOST_INKS, type Unmixer } from './unmix.ts';
