import { boxCount } from '../../repeat/lattice.ts';
import { type Layout, parseLayout } from '../../repeat/layout.ts';
import { reflectionAt } from '../../repeat/unfold.ts';
import type { Cloth } from './data.ts';

/** A picture that can be drawn, and its size in px. */
export type Drawable = CanvasImageSource & { readonly width: number; readonly height: number };

/** A piece of cloth that repeats straight, whatever the layout of its tile. */
export interface RepeatPiece {
  readonly canvas: Drawable;
  readonly mmPerPixelX: number;
  readonly mmPerPixelY: number;
}

/** Browsers refuse larger canvases. */
export const MOST_PIXELS = 16e6;

/**
 * Lays a picture out to a piece that repeats straight: a reflected tile unfolded, of a drop as many columns as bring
 * it back, of a brick as many rows.
 *
 * @param pixelsPerMm What it is wanted for; it is drawn at the picture's own density or a half, a quarter ... of it.
 */
export function layPiece(picture: ImageBitmap, cloth: Cloth, pixelsPerMm: number): RepeatPiece {
  const layout = parseLayout(cloth.layout);
  const { width, height } = sizeFor(picture, cloth, layout, pixelsPerMm);
  const tile = canvasOf(width, height);
  drawSmooth(tile, picture, width, height);
  return {
    canvas: layOut(tile, layout),
    mmPerPixelX: cloth.widthMm / width,
    mmPerPixelY: cloth.heightMm / height,
  };
}

/** Copies of a tile side by side until they repeat straight; its drop or brick offset is whole pixels. */
export function layOut(tile: Drawable, layout: Layout): HTMLCanvasElement {
  const { across, down } = piecesOf(layout);
  const canvas = canvasOf(tile.width * across, tile.height * down);
  const context = canvas.getContext('2d')!;
  for (let row = 0; row < down; row++) {
    for (let column = 0; column < across; column++) drawCopy(context, tile, layout, column, row);
  }
  return canvas;
}

/** How many tiles bring a layout back. */
export function piecesOf(layout: Layout): { across: number; down: number } {
  const { across, down } = boxCount(layout);
  return {
    across: layout.kind === 'drop' ? layout.denominator : across,
    down: layout.kind === 'brick' ? layout.denominator : down,
  };
}

/** Whole pixels of a tile on which its drop or brick offset is whole too. */
function sizeFor(picture: ImageBitmap, { widthMm }: Cloth, layout: Layout, pixelsPerMm: number) {
  const { across, down } = piecesOf(layout);
  const stepX = layout.kind === 'brick' ? layout.denominator : 1;
  const stepY = layout.kind === 'drop' ? layout.denominator : 1;
  let share = 1;
  while ((picture.width / widthMm) * share >= 2 * pixelsPerMm) share /= 2;
  while (picture.width * picture.height * share ** 2 * across * down > MOST_PIXELS) share /= 2;
  return {
    width: Math.max(1, Math.round((picture.width * share) / stepX)) * stepX,
    height: Math.max(1, Math.round((picture.height * share) / stepY)) * stepY,
  };
}

/** Tile (column, row) of the piece; what a drop or brick pushes over its edge comes in at the other. */
function drawCopy(
  context: CanvasRenderingContext2D,
  tile: Drawable,
  layout: Layout,
  column: number,
  row: number,
): void {
  const { width, height } = tile;
  const shift = layout.numerator / layout.denominator;
  const x = layout.kind === 'brick' ? Math.round(row * shift * width) % width : column * width;
  const y = layout.kind === 'drop' ? Math.round(column * shift * height) % height : row * height;
  const { flipX, flipY } = reflectionAt(layout, column, row);
  const left = layout.kind === 'brick' && x > 0 ? [x, x - width] : [x];
  const top = layout.kind === 'drop' && y > 0 ? [y, y - height] : [y];
  for (const atX of left) {
    for (const atY of top) {
      context.setTransform(
        flipX ? -1 : 1,
        0,
        0,
        flipY ? -1 : 1,
        flipX ? atX + width : atX,
        flipY ? atY + height : atY,
      );
      context.drawImage(tile, 0, 0);
    }
  }
}

function drawSmooth(canvas: HTMLCanvasElement, picture: ImageBitmap, width: number, height: number): void {
  const context = canvas.getContext('2d')!;
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, 0, 0, width, height);
}

export function canvasOf(width: number, height: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  return canvas;
}
