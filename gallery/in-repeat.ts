import { fitGrid, type Repeat, unfold, wrapPoint } from '../src/repeat/index.ts';
import type { Picture } from './artwork/tile.ts';
import { shrink } from './shrink.ts';

/** What part of the cloth is looked at, and from how near. */
export interface View {
  /** Left edge, mm from the tile's. */
  readonly x: number;
  /** Upper edge, mm from the tile's. */
  readonly y: number;
  readonly pixelsPerMm: number;
  /** Pixels. */
  readonly width: number;
  /** Pixels. */
  readonly height: number;
}

/** A tile laid in repeat over its layout, at whole pixels of a density near to the one asked for. */
export function layInRepeat(tile: Picture, repeat: Repeat, view: View): Picture {
  const grid = fitGrid(repeat, view.pixelsPerMm);
  const { pixels: small } = shrink(tile, grid.tileWidth, grid.tileHeight);
  const box = new Uint32Array(grid.width * grid.height);
  unfold(repeat.layout, small, grid.tileWidth, grid.tileHeight, 4, new Uint8Array(box.buffer));
  const [left, top] = [Math.round(view.x / grid.mmPerPixelX), Math.round(view.y / grid.mmPerPixelY)];
  const laid = new Uint32Array(view.width * view.height);
  for (let row = 0; row < view.height; row++) {
    for (let column = 0; column < view.width; column++) {
      const [x, y] = wrapPoint(grid.lattice, left + column, top + row);
      laid[row * view.width + column] = box[y * grid.width + x];
    }
  }
  return { pixels: new Uint8Array(laid.buffer), width: view.width, height: view.height };
}
