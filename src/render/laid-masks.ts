import type { Frame } from '../colour/frame.ts';
import { parseHex } from '../colour/hex.ts';
import { type MainColour, mainColours } from '../inspect/index.ts';
import type { LaidMask } from './mask-words.ts';
import type { RenderStep } from './step.ts';

/**
 * Looks at the artwork before it is laid over, for the steps whose mask goes by colour.
 *
 * @returns What became of every mask, once it is known what share of the tile each step was laid on.
 */
export function watchMasks(
  steps: readonly RenderStep[],
  artwork: Frame,
): (laidOn: readonly (number | undefined)[]) => LaidMask[] {
  // Translucent artwork shows other colours over another paper.
  const byPaper = new Map<string, readonly MainColour[]>();
  for (const { mask, paper } of steps) {
    if (mask?.colours && !byPaper.has(paper)) byPaper.set(paper, mainColours(artwork, parseHex(paper)));
  }
  return (laidOn) =>
    steps.flatMap((step, index) => {
      const share = laidOn[index];
      const colours = step.mask?.colours && byPaper.get(step.paper);
      return share === undefined ? [] : [{ step, share, colours }];
    });
}
