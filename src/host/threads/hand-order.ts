import type { Frame } from '../../render/frame.ts';
import type { Grid } from '../../repeat/grid.ts';
import type { Layout } from '../../repeat/layout.ts';
import type { Verdict } from '../../collection/disk/sidecar.ts';

/** What a hand is asked. Pictures lie in shared memory. */
export type HandOrder =
  | { readonly kind: 'tile'; readonly tile: Frame; readonly layout: Layout }
  | {
      readonly kind: 'result';
      readonly result: Frame;
      readonly resultGrid: Grid;
      /** The artwork, unchanged. */
      readonly tile: Frame;
      readonly grid: Grid;
      /** True where the result stands on the tile's own grid. */
      readonly isSameGrid: boolean;
    }
  | { readonly kind: 'resample'; readonly tile: Frame; readonly grid: Grid };

/** What each kind of order comes back with. */
export interface HandResults {
  readonly tile: Verdict;
  readonly result: Verdict;
  readonly resample: Frame;
}

export type HandAnswer = { readonly result: HandResults[HandOrder['kind']] } | { readonly failed: string };
