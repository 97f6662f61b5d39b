import { gatherOrder } from '../../render/gather.ts';
import type { GatherOrder, TilePicture } from '../../render/orders.ts';
import { type Grid, gridOfPixels } from '../../repeat/grid.ts';
import { STRAIGHT } from '../../repeat/layout.ts';

/** Has a picture drawn; it is filled once that is done. */
export type Draw = (order: GatherOrder) => Promise<void>;

/** A tile of 8-bit samples, and copies of it each half as wide and high as the one before, made when a look first needs one. */
export class Pyramid {
  readonly tile: TilePicture;
  readonly #coarser: Promise<TilePicture>[] = [];

  constructor(tile: TilePicture) {
    this.tile = tile;
  }

  /** The coarsest that still has all the pixels of a grid; the tile itself where none has more. */
  async levelFor({ tileWidth, tileHeight }: Grid, draw: Draw): Promise<TilePicture> {
    let level = this.tile;
    for (let index = 0; ; index++) {
      const [width, height] = [halved(level.width), halved(level.height)];
      if (width < tileWidth || height < tileHeight || width === level.width) return level;
      level = await this.#at(index, level, draw);
    }
  }

  #at(index: number, finer: TilePicture, draw: Draw): Promise<TilePicture> {
    const made = this.#coarser[index] ?? halve(finer, draw);
    this.#coarser[index] = made;
    // What could not be made for want of a thread may be another time.
    made.catch(() => {
      if (this.#coarser[index] === made) delete this.#coarser[index];
    });
    return made;
  }
}

async function halve(finer: TilePicture, draw: Draw): Promise<TilePicture> {
  const [width, height] = [halved(finer.width), halved(finer.height)];
  const grid = gridOfPixels({ layout: STRAIGHT, width, height }, width, height);
  const order = { ...gatherOrder(finer, grid, { x: 0, y: 0, width, height }), isHalved: true };
  await draw(order);
  return { pixels: order.to, width, height, channels: finer.channels };
}

function halved(size: number): number {
  return Math.ceil(size / 2);
}
