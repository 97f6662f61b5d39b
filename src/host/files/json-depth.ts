import { createScanner } from 'jsonc-parser';

/** Kinds of token of the scanner. */
const OPENING: readonly number[] = [1, 3];
const CLOSING: readonly number[] = [2, 4];
const END = 17;

/** No file of ours goes beyond ten; a reader that calls itself would break at some thousands. */
export const MOST_DEPTH = 100;

/**
 * Where brackets of a JSON text, with or without comments, first stand more than `MOST_DEPTH` deep.
 *
 * @returns A place in the text, or undefined where they nowhere do.
 */
export function tooDeepAt(text: string): number | undefined {
  const scanner = createScanner(text, true);
  for (let depth = 0, token = scanner.scan(); token !== (END as number); token = scanner.scan()) {
    if (OPENING.includes(token)) depth++;
    else if (CLOSING.includes(token)) depth--;
    if (depth > MOST_DEPTH) return scanner.getTokenOffset();
  }
  return undefined;
}
