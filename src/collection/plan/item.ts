import { spaceOf } from '../../render/job.ts';
import { sizeOf } from '../../render/space.ts';
import type { Labels } from './combine.ts';
import type { Inputs, RenderWish } from './identity.ts';

/** One render of a collection. */
export interface Item extends RenderWish {
  /** Path of the picture in the output folder, with its ending and forward slashes. */
  readonly name: string;
  /** Content address. */
  readonly address: string;
  /** `tile`, `recipe` and the label of each axis. */
  readonly labels: Labels;
  readonly inputs: Inputs;
  /** Pixels per mm that were asked for; the tile is resampled to them. */
  readonly density?: number;
}

/** Pixels of the picture that comes out: the unfolded box, unless the texture follows the artwork. */
export function pixelsOf(wish: Pick<RenderWish, 'grid' | 'follow' | 'steps'>): number {
  const { width, height } = sizeOf(wish.grid, spaceOf(wish));
  return width * height;
}
