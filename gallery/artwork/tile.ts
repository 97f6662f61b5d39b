import { type Canvas, createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import {
  boxCount,
  fitGrid,
  type Grid,
  parseLayout,
  type Reflection,
  reflectionAt,
} from '../../src/repeat/index.ts';
import type { Artwork, Pen, Piece } from './artwork.ts';
import { boundsOf, type Shape, signedArea } from './geometry.ts';

/** RGBA, 8 bit, opaque, row by row. */
export interface Picture {
  readonly pixels: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** A rectangle of the plane in pixels; the tile itself is `0, 0, tileWidth, tileHeight`. */
export interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The grid an artwork is drawn on: its size is kept, the pixels are rounded to what its layout allows. */
export function gridOf(artwork: Artwork, pixelsPerMm: number): Grid {
  const { width, height } = artwork;
  return fitGrid({ layout: parseLayout(artwork.layout), width, height }, pixelsPerMm);
}

/** One tile of an artwork: of a reflected layout the single quarter or half. */
export function drawTile(artwork: Artwork, pixelsPerMm: number): Picture {
  const grid = gridOf(artwork, pixelsPerMm);
  return drawWindow(artwork, grid, { x: 0, y: 0, width: grid.tileWidth, height: grid.tileHeight });
}

/** Any rectangle of the plane that the artwork covers in its layout. */
export function drawWindow(artwork: Artwork, grid: Grid, window: Window): Picture {
  const { width, height } = window;
  const context = createCanvas(width, height).getContext('2d');
  context.fillStyle = artwork.ground;
  context.fillRect(0, 0, width, height);
  context.imageSmoothingEnabled = false;
  artwork.draw(penOn(context, grid, window));
  const { data } = context.getImageData(0, 0, width, height);
  return { pixels: new Uint8Array(data.buffer), width, height };
}

/** A copy of the tile in the layout: reflected about the tile's own middle, then moved (pixels). */
interface Copy extends Reflection {
  readonly x: number;
  readonly y: number;
}

/**
 * A motif is drawn once, whole, and its pixels are set down at every copy: Skia smooths an edge a little
 * differently where the canvas cuts it off, and copies drawn one by one would not be quite alike.
 */
function penOn(context: SKRSContext2D, grid: Grid, window: Window): Pen {
  return {
    lay(...pieces) {
      const shapes = pieces.map(({ ink, shape }) => ({ ink, shape: toPixels(shape, grid) }));
      const [left, top, right, bottom] = boundsOf(shapes.flatMap(({ shape }) => shape));
      const bounds = [Math.floor(left), Math.floor(top), Math.ceil(right), Math.ceil(bottom)] as const;
      const copies = copiesOver(grid, window, bounds);
      if (copies.length === 0) return;
      const motif = drawMotif(shapes, bounds);
      for (const copy of copies) setDown(context, motif, bounds, copy, grid, window);
    },
  };
}

/** Left, top, right and bottom in pixels. */
type Bounds = readonly [number, number, number, number];

function drawMotif(pieces: readonly Piece[], [left, top, right, bottom]: Bounds): Canvas {
  const canvas = createCanvas(right - left, bottom - top);
  const context = canvas.getContext('2d');
  context.translate(-left, -top);
  for (const { ink, shape } of pieces) {
    context.beginPath();
    for (const contour of shape) {
      contour.forEach(([x, y], index) => {
        if (index === 0) context.moveTo(x, y);
        else context.lineTo(x, y);
      });
      context.closePath();
    }
    context.fillStyle = ink.hex;
    context.fill();
  }
  return canvas;
}

function setDown(
  context: SKRSContext2D,
  motif: Canvas,
  [left, top]: Bounds,
  { flipX, flipY, x, y }: Copy,
  { tileWidth, tileHeight }: Grid,
  window: Window,
): void {
  context.setTransform(
    flipX ? -1 : 1,
    0,
    0,
    flipY ? -1 : 1,
    x - window.x + (flipX ? tileWidth : 0),
    y - window.y + (flipY ? tileHeight : 0),
  );
  context.drawImage(motif, left, top);
}

/** The shape in pixels, every contour turning one way, so that two that overlap never cancel to a hole. */
function toPixels(shape: Shape, { mmPerPixelX, mmPerPixelY }: Grid): Shape {
  return shape.map((contour) => {
    const scaled = contour.map(([x, y]) => [x / mmPerPixelX, y / mmPerPixelY] as const);
    return signedArea(scaled) < 0 ? scaled.reverse() : scaled;
  });
}

/** The copies of a box that touch the window, row by row, so that overlaps are alike everywhere. */
function copiesOver(grid: Grid, window: Window, bounds: Bounds): Copy[] {
  const { lattice, tileWidth, tileHeight, repeat } = grid;
  const { across, down } = boxCount(repeat.layout);
  const copies: Copy[] = [];
  for (const cell of cellsOver(grid, window, bounds)) {
    for (let row = 0; row < down; row++) {
      for (let column = 0; column < across; column++) {
        copies.push({
          ...reflectionAt(repeat.layout, column, row),
          x: cell[0] * lattice.ax + cell[1] * lattice.bx + column * tileWidth,
          y: cell[0] * lattice.ay + cell[1] * lattice.by + row * tileHeight,
        });
      }
    }
  }
  return copies.filter((copy) => touches(copy, grid, window, bounds));
}

/** Lattice steps (along the first and second vector) wide enough for whatever reaches the window. */
function cellsOver(
  { lattice, width, height }: Grid,
  window: Window,
  [left, top, right, bottom]: Bounds,
): [number, number][] {
  const reach = [
    Math.max(-left, right, width) + Math.max(Math.abs(window.x), Math.abs(window.x + window.width)),
    Math.max(-top, bottom, height) + Math.max(Math.abs(window.y), Math.abs(window.y + window.height)),
  ];
  const sideways = Math.ceil(reach[0] / lattice.ax) + 1;
  const downward = Math.ceil(reach[1] / lattice.by) + 1;
  const slack = lattice.bx ? Math.ceil((downward * lattice.bx) / lattice.ax) : 0;
  const drop = lattice.ay ? Math.ceil((sideways * lattice.ay) / lattice.by) : 0;
  const cells: [number, number][] = [];
  for (let b = -downward - drop; b <= downward + drop; b++) {
    for (let a = -sideways - slack; a <= sideways + slack; a++) cells.push([a, b]);
  }
  return cells;
}

function touches(
  copy: Copy,
  { tileWidth, tileHeight }: Grid,
  window: Window,
  [left, top, right, bottom]: Bounds,
): boolean {
  const [x0, x1] = copy.flipX ? [tileWidth - right, tileWidth - left] : [left, right];
  const [y0, y1] = copy.flipY ? [tileHeight - bottom, tileHeight - top] : [top, bottom];
  return (
    copy.x + x1 >= window.x &&
    copy.x + x0 <= window.x + window.width &&
    copy.y + y1 >= window.y &&
    copy.y + y0 <= window.y + window.height
  );
}
