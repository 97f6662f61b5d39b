import type { Band } from '../effect/effect.ts';
import type { PixelFinder } from '../repeat/fold.ts';
import { type Grid, patchGrid } from '../repeat/grid.ts';
import type { Patch } from '../repeat/patch.ts';
import type { PassOrder } from './orders.ts';
import { openSpace } from './space.ts';

/** A picture of a pass. */
export interface PassPicture {
  /** Where its first pixel lies on the plane. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Finds a pixel by its place in the picture, beyond its edges as well. */
  readonly find: PixelFinder;
}

/** Opens a picture of a pass: all are of the whole frame, or each of a patch of the plane. */
export function openPicture(pass: PassOrder, name: 'target' | 'source' | 'original'): PassPicture {
  if (!pass.patches) return { x: 0, y: 0, ...openSpace(pass.grid, pass.frame) };
  const { x, y } = pass.patches[name];
  return { x, y, ...openSpace(pictureGrid(pass, name), 'patch') };
}

/** The pixels of a picture as a grid of their own. */
export function pictureGrid({ grid, patches }: PassOrder, name: 'target' | 'source' | 'original'): Grid {
  return patches ? patchGrid(grid, patches[name]) : grid;
}

/** A band of the plane, counted from a picture's first pixel. */
export function bandIn<B extends Pick<Band, 'x' | 'y'>>({ x, y }: Pick<Patch, 'x' | 'y'>, band: B): B {
  return x === 0 && y === 0 ? band : { ...band, x: band.x - x, y: band.y - y };
}
