import type { CellShape } from '../../src/field/cells.ts';
import { addFractalRow, type FractalShape, fractalNoise } from '../../src/field/fractal.ts';
import { randomStream } from '../../src/field/random.ts';
import { boxCount, type Lattice, latticeOf, unfoldedLayout } from '../../src/repeat/lattice.ts';
import type { Layout } from '../../src/repeat/layout.ts';

/** A tile to be drawn so that it closes over its layout: 1 mm to the pixel, for simplicity. */
export interface Ground {
  readonly layout: Layout;
  readonly width: number;
  readonly height: number;
  readonly seed: string;
  /** Of the unfolded box, px. */
  readonly lattice: Lattice;
  /** The ways in which the layout shows the tile: a picture must not change under any of them. */
  readonly turns: readonly Turn[];
}

/** (x, y) -> (ox + sx * x, oy + sy * y); sx and sy are 1 or -1. */
export interface Turn {
  readonly sx: number;
  readonly sy: number;
  readonly ox: number;
  readonly oy: number;
}

const UNTURNED: Turn = { sx: 1, sy: 1, ox: 0, oy: 0 };

export function groundOf(layout: Layout, width: number, height: number, seed: string): Ground {
  const { across, down } = boxCount(layout);
  const lattice = latticeOf(unfoldedLayout(layout), width * across, height * down);
  return { layout, width, height, seed, lattice, turns: turnsOf(layout, width, height) };
}

function turnsOf({ kind }: Layout, width: number, height: number): Turn[] {
  const acrossFlip = { ...UNTURNED, sx: -1 };
  const downFlip = { ...UNTURNED, sy: -1 };
  if (kind === 'mirror-x') return [UNTURNED, acrossFlip];
  if (kind === 'mirror-y') return [UNTURNED, downFlip];
  if (kind === 'mirror-xy') return [UNTURNED, acrossFlip, downFlip, { ...UNTURNED, sx: -1, sy: -1 }];
  if (kind === 'turn') return [UNTURNED, { sx: -1, sy: -1, ox: 2 * width, oy: height }];
  return [UNTURNED];
}

/** One number per pixel of the tile. */
export type Plane = Float32Array;

/**
 * A fractal noise of the room `field`, averaged over the ways the layout shows the tile.
 *
 * @param margin Pixels more on each side, for who wants slopes at the border.
 */
export function noisePlane(
  ground: Ground,
  name: string,
  cell: CellShape,
  shape: FractalShape,
  margin = 0,
): Plane {
  const { lattice, turns } = ground;
  const width = ground.width + 2 * margin;
  const height = ground.height + 2 * margin;
  const noise = fractalNoise(lattice, cell, shape, randomStream(ground.seed, name));
  const plane = new Float32Array(width * height);
  const row = new Float32Array(width);
  const share = 1 / Math.sqrt(turns.length);
  for (const { sx, sy, ox, oy } of turns) {
    for (let y = 0; y < height; y++) {
      row.fill(0);
      const first = sx > 0 ? 0.5 - margin : ox - (ground.width + margin - 0.5);
      addFractalRow(noise, first, 1, oy + sy * (y - margin + 0.5), share, row, width);
      for (let x = 0; x < width; x++) plane[y * width + x] += row[sx > 0 ? x : width - 1 - x];
    }
  }
  return plane;
}

/** Something drawn about (x, y): its distance from the outline in px, negative inside, out to `reach`. */
export interface Shape {
  readonly x: number;
  readonly y: number;
  readonly reach: number;
  /** @param dx, dy From the shape's own place. */
  distance(dx: number, dy: number): number;
}

/** The distance to the nearest of all copies of the shapes, over the tile. Far away: 1000. */
export function distancePlane(ground: Ground, shapes: readonly Shape[]): Plane {
  const plane = new Float32Array(ground.width * ground.height).fill(1000);
  for (const shape of shapes) {
    for (const turn of ground.turns) {
      const x = turn.ox + turn.sx * shape.x;
      const y = turn.oy + turn.sy * shape.y;
      for (const [dx, dy] of translatesNear(ground, x, y, shape.reach)) {
        stamp(ground, plane, shape, turn, x + dx, y + dy);
      }
    }
  }
  return plane;
}

function translatesNear(
  { lattice, width, height }: Ground,
  x: number,
  y: number,
  reach: number,
): [number, number][] {
  const { ax, ay, bx, by } = lattice;
  const found: [number, number][] = [];
  for (let m = -3; m <= 3; m++) {
    for (let n = -4; n <= 4; n++) {
      const dx = m * ax + n * bx;
      const dy = m * ay + n * by;
      const inside = x + dx > -reach && x + dx < width + reach && y + dy > -reach && y + dy < height + reach;
      if (inside) found.push([dx, dy]);
    }
  }
  return found;
}

function stamp(
  { width, height }: Ground,
  plane: Plane,
  { reach, distance }: Shape,
  turn: Turn,
  x: number,
  y: number,
) {
  const left = Math.max(0, Math.floor(x - reach));
  const right = Math.min(width, Math.ceil(x + reach));
  const top = Math.max(0, Math.floor(y - reach));
  const bottom = Math.min(height, Math.ceil(y + reach));
  for (let j = top; j < bottom; j++) {
    for (let i = left; i < right; i++) {
      const d = distance(turn.sx * (i + 0.5 - x), turn.sy * (j + 0.5 - y));
      if (d < plane[j * width + i]) plane[j * width + i] = d;
    }
  }
}

/** How much of each pixel lies inside an outline `plane` px away: 1 inside, 0 outside. */
export function coverage(distance: number, softness = 1): number {
  return Math.max(0, Math.min(1, 0.5 - distance / softness));
}

/**
 * The distance in px from where a noise passes `level`, by the noise's own slope; negative where it
 * is above the level.
 */
export function contourPlane(
  ground: Ground,
  name: string,
  cell: CellShape,
  shape: FractalShape,
  level: number,
): Plane {
  const { width, height } = ground;
  const stride = width + 2;
  const noise = noisePlane(ground, name, cell, shape, 1);
  const distance = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = (y + 1) * stride + x + 1;
      const slope = Math.hypot(noise[at + 1] - noise[at - 1], noise[at + stride] - noise[at - stride]) / 2;
      distance[y * width + x] = (level - noise[at]) / Math.max(1e-4, slope);
    }
  }
  return distance;
}
