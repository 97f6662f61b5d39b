import type { Grid } from './grid.ts';
import { modulo } from './lattice.ts';
import type { Patch } from './patch.ts';
import { type Reflection, reflectionAt } from './unfold.ts';

/** The part of a patch that lies in one copy of the tile. */
export interface TilePart extends Reflection {
  /** Pixels from the patch's upper left corner. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** The same rectangle in the tile, as it is stored: where the copy is turned over, so is what is seen. */
  readonly x: number;
  readonly y: number;
}

/** Cuts a patch of the plane along the edges of the tiles that it lies on, any number of them. */
export function* tileParts(grid: Grid, patch: Patch): Generator<TilePart> {
  const { lattice, tileWidth, tileHeight } = grid;
  if (lattice.bx !== 0) {
    for (const down of stretches(patch.y, patch.height, tileHeight))
      for (const across of stretches(patch.x - down.cell * lattice.bx, patch.width, tileWidth))
        yield partOf(grid, { ...across, from: across.from + down.cell * lattice.bx }, down, patch);
    return;
  }
  for (const across of stretches(patch.x, patch.width, tileWidth)) {
    // Of a reflected layout the lattice is straight, and this is 0.
    const drop = across.cell * lattice.ay;
    for (const down of stretches(patch.y - drop, patch.height, tileHeight))
      yield partOf(grid, across, { ...down, from: down.from + drop }, patch);
  }
}

function partOf({ repeat, tileWidth, tileHeight }: Grid, across: Stretch, down: Stretch, patch: Patch) {
  const { flipX, flipY } = reflectionAt(repeat.layout, modulo(across.cell, 2), modulo(down.cell, 2));
  return {
    left: across.from - patch.x,
    top: down.from - patch.y,
    width: across.count,
    height: down.count,
    x: flipX ? tileWidth - across.inside - across.count : across.inside,
    y: flipY ? tileHeight - down.inside - down.count : down.inside,
    flipX,
    flipY,
  };
}

/** Pixels in one copy of the tile, along one axis. */
export interface Stretch {
  readonly from: number;
  readonly count: number;
  /** Which copy. */
  readonly cell: number;
  /** The first pixel, counted from the copy's edge. */
  readonly inside: number;
}

/** Cuts `count` pixels from `start` on where copies of `size` pixels meet. */
export function stretches(start: number, count: number, size: number): Stretch[] {
  const found: Stretch[] = [];
  for (let from = start; from < start + count; ) {
    const cell = Math.floor(from / size);
    const end = Math.min(start + count, (cell + 1) * size);
    found.push({ from, count: end - from, cell, inside: from - cell * size });
    from = end;
  }
  return found;
}
