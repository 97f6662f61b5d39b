import {
  AXES,
  type ClosingLayout,
  checkSeams,
  closingLayouts,
  type InspectedPicture,
  reportOfEdges,
} from '../inspect/index.ts';
import type { SeamCheck } from '../render/verdict.ts';
import { Hands } from './threads/hands.ts';

/** px. Below this a check is over before a thread has begun. */
const WORTH_A_THREAD = 1e6;

/** Looks at the seams of pictures beside whatever else is done. */
export interface SeamEyes {
  readonly check: SeamCheck;
  /** What `closingLayouts` says. */
  closing(picture: InspectedPicture): Promise<ClosingLayout[]>;
  close(): Promise<void>;
}

/** px. Below this a second thread takes longer to begin, and to compile what the first has compiled, than it saves. */
const WORTH_TWO = 16e6;

/**
 * On threads where the pictures are worth it: one for the edges of each direction, or one for both.
 *
 * @param pixels Of most of the pictures, where that is known.
 */
export function openSeamEyes(pixels = Number.POSITIVE_INFINITY): SeamEyes {
  const hands = new Hands(pixels < WORTH_TWO ? 1 : AXES.length);
  return {
    async check(picture, layout, options) {
      if (isSmall(picture)) return checkSeams(picture, layout, options);
      const asked = AXES.map((axis) => hands.ask({ kind: 'edges', picture, layout, axis, options }));
      // Both are waited for even where one fails: the pixels must not be given up under the other's eyes.
      await Promise.allSettled(asked);
      return reportOfEdges(picture, layout, (await Promise.all(asked)).flat());
    },
    closing: async (picture) =>
      isSmall(picture) ? closingLayouts(picture) : hands.ask({ kind: 'closing', picture }),
    close: () => hands.close(),
  };
}

function isSmall({ width, height }: InspectedPicture): boolean {
  return width * height < WORTH_A_THREAD;
}
