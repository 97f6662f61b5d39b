import { ALIKE_DIFFERENCE, type ColourwayDoubt, LIGHT_AND_DARK } from '../ink/index.ts';
import { trimNumber } from '../repeat/length.ts';

/** What a colourway does to a design, as a sentence without its point. */
export function wordsOfDoubt({ kind, inks: [one, other], before, after }: ColourwayDoubt): string {
  if (kind === 'alike')
    return `${one} and ${other} become alike: ${trimNumber(before, 1)} apart on the card, ${trimNumber(after, 1)} here (CIEDE2000; told below ${ALIKE_DIFFERENCE})`;
  return `light and dark are reversed: ${one} is darker than ${other} here by ${trimNumber(-after, 0)} of 100, and lighter by ${trimNumber(before, 0)} on the card (told above ${LIGHT_AND_DARK})`;
}
