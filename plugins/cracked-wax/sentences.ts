/** What a designer reads, and sets. */
export const SENTENCES = [
  '{bath: Dye | Bleach} has seeped through cracks {width} wide and {spacing} apart.',
  'The bath is {strength} strong and has crept {bleeding} into the cloth; any dye is {dye}.',
  'Branching is {branching}, wandering {curve} and crumpling {crumpling} of the usual.',
];
