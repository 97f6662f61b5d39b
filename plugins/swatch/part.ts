import type { Picture } from 'tenter';

/** A rectangle of a picture, whole pixels. */
export interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * The part of a picture that is asked for, moved and made smaller where it does not lie inside.
 *
 * @param part mm from the left and the top, width and height; a width or height of 0 takes all that is left.
 */
export function partOf(picture: Picture, [left, top, width, height]: readonly number[]): Part {
  const across = span(left, width, picture.width, picture.mmPerPixelX);
  const down = span(top, height, picture.height, picture.mmPerPixelY);
  return { x: across.from, y: down.from, width: across.count, height: down.count };
}

function span(start: number, side: number, pixels: number, mmPerPixel: number) {
  const wanted = side > 0 ? Math.round(side / mmPerPixel) : Number.POSITIVE_INFINITY;
  const from = Math.min(pixels - 1, Math.round(start / mmPerPixel));
  const count = Math.max(1, Math.min(wanted, pixels));
  if (side === 0) return { from, count: pixels - from };
  return { from: Math.min(from, pixels - count), count };
}

/** A part of a picture as a picture of its own; the very same one where that is all of it. */
export function cutPart(picture: Picture, { x, y, width, height }: Part): Picture {
  if (width === picture.width && height === picture.height) return picture;
  const samples = new Uint16Array(4 * width * height);
  for (let j = 0; j < height; j++) {
    const from = 4 * ((y + j) * picture.width + x);
    samples.set(picture.samples.subarray(from, from + 4 * width), 4 * j * width);
  }
  return { ...picture, width, height, samples };
}
